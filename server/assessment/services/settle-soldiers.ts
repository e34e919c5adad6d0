import { isDeepStrictEqual } from 'node:util'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { assessSoldier } from '../../domain/assessment/assess-soldier.ts'
import type { CertificationAssessment, SheetAssessment } from '../../domain/assessment/types.ts'
import { type StandingChange, saveJudgement } from '../db/assessments.db.ts'
import { readDossiers, type StoredDossier, type StoredSheet } from '../db/dossiers.db.ts'

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
  /** How the soldier stands in certifications, where it is otherwise than before. */
  readonly standings: readonly MovedStanding[]
}

export interface MovedStanding {
  readonly before: CertificationAssessment
  readonly after: CertificationAssessment
}

/** A sheet that came out differently. */
export interface ChangedSheet {
  readonly before: StoredSheet
  readonly after: SheetAssessment
}

/**
 * Judges soldiers' sheets anew, each by what is stored now, and stores what came out differently: states, standings and
 * earned awards; the tallies are left to whoever asks.
 * In: the sheets that whatever holds them now holds, even where they are counted already. Out: by soldier, and the sheets.
 */
export async function settleSoldiers(
  tx: Transaction,
  catalogue: Catalogue,
  soldierIds: readonly string[],
  undecided: ReadonlySet<string>,
): Promise<{ settled: Map<string, Settled>; sheets: ChangedSheet[] }> {
  const sheets: ChangedSheet[] = []
  const standings: StandingChange[] = []
  const settled = new Map<string, Settled>()
  const certificationIds = new Map(catalogue.certifications.map(({ code, id }) => [code, id]))
  for (const [soldierId, stored] of await readDossiers(tx, soldierIds)) {
    const { changed, moved } = judgeAnew(catalogue, stored, undecided)
    sheets.push(...changed)
    const changedStandings = moved.map((after) => ({ before: standingOf(stored, after.certification), after }))
    standings.push(
      ...changedStandings.map((one) => {
        return { ...one, soldierId, certificationId: certificationIds.get(one.after.certification)! }
      }),
    )
    const changes = changed.map(({ before: { id, revision, state, tolerated }, after }) => {
      return { id, revision, before: state, after: after.state, tolerated }
    })
    settled.set(soldierId, {
      awardsChangedFrom: firstChangedAward(stored, moved),
      changes,
      standings: changedStandings,
    })
  }
  const states = sheets.map(({ after }) => ({ ...after, talliedUnitId: talliedUnit(after) }))
  await saveJudgement(tx, states, standings)
  return { settled, sheets }
}

function judgeAnew(
  catalogue: Catalogue,
  stored: StoredDossier,
  undecided: ReadonlySet<string>,
): { changed: ChangedSheet[]; moved: CertificationAssessment[] } {
  const sheets = stored.sheets.map((sheet) =>
    undecided.has(sheet.id) && sheet.state !== 'rejected' ? { ...sheet, state: 'new' as const } : sheet,
  )
  const assessment = assessSoldier(catalogue.judging, { ...stored, sheets }, stored.people)
  const before = new Map(stored.sheets.map((sheet) => [sheet.id, sheet]))
  return {
    changed: assessment.sheets
      .map((after) => ({ before: before.get(after.id)!, after }))
      .filter(({ before, after }) => isChanged(before, after)),
    moved: assessment.certifications.filter((one) => !isDeepStrictEqual(one, standingOf(stored, one.certification))),
  }
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
