import { isDeepStrictEqual } from 'node:util'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { assessSoldier } from '../../domain/assessment/assess-soldier.ts'
import type { CertificationAssessment, KnownBefore, SheetAssessment } from '../../domain/assessment/types.ts'
import { type StandingChange, saveJudgement } from '../db/assessments.db.ts'
import { readDossiers, type StoredDossier, type StoredSheet } from '../db/dossiers.db.ts'
import type { Arrival } from './arrival.ts'

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
  /** How the soldier stands in certifications, where it is otherwise than before; of who has a sheet that arrived, from its place on. */
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
 * In: the sheets that whatever holds them now holds, even where they are counted already; a sheet of one soldier that is
 * not stored yet, and is stored as it comes out. Out: by soldier, and the sheets.
 */
export async function settleSoldiers(
  tx: Transaction,
  catalogue: Catalogue,
  soldierIds: readonly string[],
  undecided: ReadonlySet<string>,
  arrival?: Arrival,
): Promise<{ settled: Map<string, Settled>; sheets: ChangedSheet[]; arrived: SheetAssessment | null }> {
  const sheets: ChangedSheet[] = []
  const standings: StandingChange[] = []
  const settled = new Map<string, Settled>()
  const certificationIds = new Map(catalogue.certifications.map(({ code, id }) => [code, id]))
  const newId = arrival?.sheet.fields.id
  let arrived: SheetAssessment | null = null
  const dossiers = arrival
    ? new Map([[arrival.sheet.fields.candidateId, arrival.dossier]])
    : await readDossiers(tx, soldierIds)
  for (const [soldierId, stored] of dossiers) {
    const { changed, moved, assessed } = judgeAnew(catalogue, stored, undecided, arrival?.settled)
    arrived ??= assessed.find(({ id }) => id === newId) ?? null
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
  const toState = (after: SheetAssessment) => ({ ...after, talliedUnitId: talliedUnit(after) })
  const states = sheets.filter(({ after }) => after.id !== newId).map(({ after }) => toState(after))
  await saveJudgement(tx, states, standings, arrival && arrived && { sheet: arrival.sheet, judged: toState(arrived) })
  return { settled, sheets, arrived }
}

function judgeAnew(
  catalogue: Catalogue,
  stored: StoredDossier,
  undecided: ReadonlySet<string>,
  before: KnownBefore | undefined,
): { changed: ChangedSheet[]; moved: CertificationAssessment[]; assessed: readonly SheetAssessment[] } {
  const sheets = stored.sheets.map((sheet) =>
    undecided.has(sheet.id) && sheet.state !== 'rejected' ? { ...sheet, state: 'new' as const } : sheet,
  )
  const assessment = assessSoldier(catalogue.judging, { ...stored, sheets }, stored.people, before)
  const stood = new Map(stored.sheets.map((sheet) => [sheet.id, sheet]))
  return {
    assessed: assessment.sheets,
    changed: assessment.sheets
      .map((after) => ({ before: stood.get(after.id)!, after }))
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
