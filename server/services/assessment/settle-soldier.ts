import { isDeepStrictEqual } from 'node:util'
import { saveSheetAssessments, saveStandings } from '../../db/assessments.db.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { readDossier, type StoredDossier, type StoredSheet } from '../../db/dossiers.db.ts'
import { assessSoldier } from '../../domain/assessment/assess-soldier.ts'
import type { CertificationAssessment, SheetAssessment } from '../../domain/assessment/types.ts'
import { settleTallies } from './settle-tallies.ts'

interface Settled {
  /** The first day from which the soldier's earned awards are others than before; undefined when they are the same. */
  readonly awardsChangedFrom: string | undefined
  /** The sheets that stand otherwise than before. */
  readonly changes: readonly {
    readonly id: string
    readonly revision: number
    readonly before: StoredSheet['state']
    readonly after: StoredSheet['state']
    /** Before. */
    readonly tolerated: readonly string[]
  }[]
}

/**
 * Judges one soldier's sheets anew and stores what came out differently: states, standings, earned awards, tallies.
 * In: the sheets that whatever holds them now holds, even where they are counted already.
 */
export async function settleSoldier(
  tx: Transaction,
  catalogue: Catalogue,
  soldierId: string,
  undecided: ReadonlySet<string>,
): Promise<Settled> {
  const stored = await readDossier(tx, soldierId)
  const sheets = stored.sheets.map((sheet) =>
    undecided.has(sheet.id) && sheet.state !== 'rejected' ? { ...sheet, state: 'new' as const } : sheet,
  )
  const assessment = assessSoldier(catalogue.judging, { ...stored, sheets }, stored.people)
  const before = new Map(stored.sheets.map((sheet) => [sheet.id, sheet]))
  const changed = assessment.sheets.filter((sheet) => isChanged(before.get(sheet.id)!, sheet))
  await settleTallies(
    tx,
    catalogue,
    changed.map((after) => ({ before: before.get(after.id)!, after })),
  )
  await saveSheetAssessments(
    tx,
    changed.map((sheet) => ({ ...sheet, talliedUnitId: talliedUnit(sheet) })),
  )
  const moved = assessment.certifications.filter(
    (one) => !isDeepStrictEqual(one, standingOf(stored, one.certification)),
  )
  const ids = new Map(catalogue.certifications.map(({ code, id }) => [code, id]))
  await saveStandings(
    tx,
    soldierId,
    moved.map((one) => ({ ...one, certificationId: ids.get(one.certification)! })),
  )
  const changes = changed.map(({ id, state: after }) => {
    const { revision, state, tolerated } = before.get(id)!
    return { id, revision, before: state, after, tolerated }
  })
  return { awardsChangedFrom: firstChangedAward(stored, moved), changes }
}

function isChanged(before: StoredSheet, after: SheetAssessment): boolean {
  return (
    before.state !== after.state ||
    before.overlaps !== after.overlaps ||
    before.talliedKind !== after.kind ||
    before.talliedUnitId !== talliedUnit(after) ||
    !isDeepStrictEqual(before.violations, after.violations) ||
    !isDeepStrictEqual(before.tolerated, after.tolerated) ||
    !isDeepStrictEqual(before.attempts, after.attempts)
  )
}

const talliedUnit = (sheet: SheetAssessment): string | null => (sheet.kind === null ? null : sheet.unitId)

function standingOf(stored: StoredDossier, certification: string): CertificationAssessment {
  return stored.standings.get(certification) ?? { certification, statuses: [], retests: [], earned: [] }
}

function firstChangedAward(stored: StoredDossier, moved: readonly CertificationAssessment[]): string | undefined {
  const days = moved.flatMap(({ certification, earned }) => {
    const old = standingOf(stored, certification).earned
    const differing = (some: typeof earned, others: typeof earned) =>
      some.filter((award) => !others.some((other) => isDeepStrictEqual(award, other)))
    return [...differing(earned, old), ...differing(old, earned)].map(({ awardedOn }) => awardedOn)
  })
  return days.sort()[0]
}
