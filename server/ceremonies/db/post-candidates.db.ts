import { soldierInScope } from '../../access/db/scope.db.ts'
import { wordsFit } from '../../access/db/words-fit.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { type FactsRow, facts, OCCASION } from './manning-facts.db.ts'

export interface CandidateRow extends FactsRow {
  /** Ceremonies stood at (or named to) within the days before this one. */
  readonly load: number
}

export interface CandidateFilter {
  readonly ceremonyId: string
  readonly postId: string
  /** Of this unit and those below it; left out: of the unit that mans the ceremony. */
  readonly ofUnit?: string
  /** Parts of roster number, name or grade: anybody of the strength. Without: who is certified, of a fitting grade and arm. */
  readonly search?: string | undefined
  /** How many days before the ceremony duties are counted. */
  readonly days: number
}

/**
 * A page of soldiers of the ceremony's unit (and in scope) who could be named to a post, who stood least first: by number
 * of ceremonies, then roster number.
 */
export async function listPostCandidates(
  tx: Transaction,
  scope: Scope,
  { ceremonyId, postId, ofUnit, search, days }: CandidateFilter,
  page: { limit: number; after: { load: number; rosterNumber: string } | null },
): Promise<CandidateRow[]> {
  const conditions = search === undefined ? [FITTING] : [Prisma.sql`true`, ...wordsFit(search, Prisma.sql`sp.grade`)]
  const { load = 0, rosterNumber = '' } = page.after ?? {}
  const after = page.after ? Prisma.sql`WHERE (load, roster_number) > (${load}::int, ${rosterNumber})` : Prisma.empty
  return tx.$queryRaw<CandidateRow[]>`
    WITH chosen AS MATERIALIZED (SELECT * FROM ceremony WHERE id = ${ceremonyId}::uuid), ${OCCASION},
    asked AS MATERIALIZED (SELECT p.*, chosen.day, chosen.unit_id FROM post p JOIN chosen ON chosen.id = p.ceremony_id
      WHERE p.id = ${postId}::uuid),
    people AS MATERIALIZED (
      SELECT sp.soldier_id, s.roster_number FROM asked
      JOIN soldier_period sp ON daterange(sp.from_day, sp.through_day, '[]') @> asked.day
      JOIN soldier s ON s.id = sp.soldier_id JOIN unit u ON u.id = sp.unit_id
      WHERE u.lineage @> ARRAY[COALESCE(${ofUnit ?? null}::uuid, asked.unit_id)] AND ${soldierInScope(scope, Prisma.sql`sp.soldier_id`, Prisma.sql`sp.unit_id`)}
        AND ${Prisma.join(conditions, ' AND ')}),
    loaded AS (
      SELECT people.*, (SELECT count(*)::int FROM post q JOIN ceremony c ON c.id = q.ceremony_id
        WHERE q.soldier_id = people.soldier_id AND c.id <> ${ceremonyId}::uuid AND c.cancelled_at IS NULL
          AND c.day <= asked.day AND c.day >= asked.day - ${days}::int) AS load
      FROM people CROSS JOIN asked),
    shown AS MATERIALIZED (SELECT * FROM loaded ${after} ORDER BY load, roster_number LIMIT ${page.limit}),
    pairs AS (SELECT ${ceremonyId}::uuid AS ceremony_id, shown.soldier_id, asked.certification_id FROM shown CROSS JOIN asked)
    SELECT f.*, shown.load FROM (${facts(scope)}) f JOIN shown ON shown.soldier_id = f."soldierId"::uuid
    ORDER BY shown.load, shown.roster_number`
}

/** SQL: certified that day, of a grade and arm the post takes. What else speaks against somebody is judged after. */
const FITTING = Prisma.sql`
  (asked.grades IS NULL OR asked.grades ? sp.grade) AND (asked.arm IS NULL OR asked.arm = ANY(sp.arms))
  AND EXISTS (SELECT FROM standing st WHERE st.soldier_id = sp.soldier_id AND st.certification_id = asked.certification_id
    AND st.from_day <= asked.day AND (st.through_day IS NULL OR st.through_day >= asked.day) AND st.status = 'certified')`

/** How many ceremonies soldiers stood at or are named to within days up to one, a ceremony left out. */
export async function countStood(
  tx: Transaction,
  soldierIds: readonly string[],
  { ceremonyId, day, days }: { ceremonyId: string | null; day: string; days: number },
): Promise<Map<string, number>> {
  const rows = await tx.$queryRaw<{ soldierId: string; stood: number }[]>`
    SELECT q.soldier_id::text AS "soldierId", count(*)::int AS stood FROM post q JOIN ceremony c ON c.id = q.ceremony_id
    WHERE q.soldier_id = ANY(${[...soldierIds]}::uuid[]) AND c.id IS DISTINCT FROM ${ceremonyId}::uuid AND c.cancelled_at IS NULL
      AND c.day <= ${day}::date AND c.day >= ${day}::date - ${days}::int
    GROUP BY q.soldier_id`
  return new Map(rows.map(({ soldierId, stood }) => [soldierId, stood]))
}
