import type { Transaction } from '../../db/client.ts'

/** What whoever watches the server wants to know of its database; moments are seconds since 1970, null: never. */
export interface Figures {
  readonly heldSheets: number
  readonly plansWaiting: number
  readonly plansSolving: number
  readonly importsUnderWay: number
  readonly lastGoodBackup: number | null
  readonly lastFailedBackup: number | null
  readonly lastFit: number | null
  readonly fits: number
  /** Due and not sent. */
  readonly mailsWaiting: number
  readonly mailsFailed: number
}

/** All figures in one question; each is counted along an index, or in a table that stays short. */
export async function readFigures(tx: Transaction, now: Date): Promise<Figures> {
  const [row] = await tx.$queryRaw<[Figures]>`
    SELECT (SELECT count(*)::int FROM sheet WHERE state = 'held') AS "heldSheets",
      (SELECT count(*)::int FROM plan WHERE state = 'waiting') AS "plansWaiting",
      (SELECT count(*)::int FROM plan WHERE state = 'solving') AS "plansSolving",
      (SELECT count(*)::int FROM import_job WHERE state IN ('checking', 'storing')) AS "importsUnderWay",
      (SELECT extract(epoch FROM max(begun_at))::float8 FROM backup_run WHERE ended_at IS NOT NULL AND problem IS NULL)
        AS "lastGoodBackup",
      (SELECT extract(epoch FROM max(begun_at))::float8 FROM backup_run WHERE problem IS NOT NULL) AS "lastFailedBackup",
      (SELECT extract(epoch FROM max(fitted_at))::float8 FROM ability_fit) AS "lastFit",
      (SELECT count(*)::int FROM ability_fit) AS fits,
      (SELECT count(*)::int FROM mail WHERE state = 'waiting' AND due_at <= ${now}) AS "mailsWaiting",
      (SELECT count(*)::int FROM mail WHERE state = 'failed') AS "mailsFailed"`
  return row
}
