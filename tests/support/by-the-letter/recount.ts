import { isAttempt } from './history-of.ts'
import { kindByTheLetter } from './kind-of-attempt.ts'
import type { Facts, SheetFact } from './read-facts.ts'
import { unitsAbove, whereOn } from './where-on.ts'

export interface FindingsFilter {
  readonly standard?: string
  readonly from?: string
  readonly to?: string
  readonly unitId?: string
  readonly attempts?: 'first' | 'retest' | 'renewal' | 'all'
  readonly arm?: string
}

export interface CountedAttempt {
  readonly sheet: SheetFact
  /** The candidate's unit that day and all above it. */
  readonly units: readonly string[]
  readonly kind: 'first' | 'retest' | 'renewal'
  /** NO-GOs in a row before it. */
  readonly noGos: number
}

/** The sheets that enter figures, each with where and as what. */
export function countedAttempts(facts: Facts): CountedAttempt[] {
  const attempts = facts.sheets.filter(isAttempt)
  return attempts.map((sheet) => {
    const { unitId } = whereOn(facts, sheet.body.candidateId, sheet.day)
    return {
      sheet,
      units: unitId === null ? [] : unitsAbove(facts, unitId),
      ...kindByTheLetter(facts, sheet),
    }
  })
}

/** Whether a filter is about an attempt. */
export const isAbout = ({ sheet, units, kind }: CountedAttempt, filter: FindingsFilter): boolean =>
  (filter.standard ?? sheet.body.standard) === sheet.body.standard &&
  (filter.from ?? sheet.day) <= sheet.day &&
  (filter.to ?? sheet.day) >= sheet.day &&
  (filter.unitId === undefined || units.includes(filter.unitId)) &&
  (filter.arm === undefined || filter.arm === sheet.body.arm) &&
  ['all', kind].includes(filter.attempts ?? 'all')

export interface MeasureCount {
  tested: number
  noGo: number
  trials: number
  incorrect: number
  faults: Record<string, number>
}

/** Counts by `minor <standard> <measure>` and `major <standard> <measure>`; what was never marked is left out. */
export function recountMeasures(
  attempts: readonly CountedAttempt[],
  filter: FindingsFilter,
): Record<string, MeasureCount> {
  const counts: Record<string, MeasureCount> = {}
  const add = (key: string, more: Omit<MeasureCount, 'faults'>, faults: readonly string[]) => {
    const count = counts[key] ?? { tested: 0, noGo: 0, trials: 0, incorrect: 0, faults: {} }
    counts[key] = count
    for (const field of ['tested', 'noGo', 'trials', 'incorrect'] as const) count[field] += more[field]
    for (const fault of faults) count.faults[fault] = (count.faults[fault] ?? 0) + 1
  }
  for (const { sheet } of attempts.filter((one) => isAbout(one, filter))) {
    const { body, score } = sheet
    if (body.outcomeOnly !== null) continue
    for (const { code, outcome, correct, incorrect, faults } of score.minors) {
      if (correct + incorrect === 0) continue
      const decided = outcome === 'GO' || outcome === 'NO-GO'
      const noGo = Number(outcome === 'NO-GO')
      add(
        `minor ${body.standard} ${code}`,
        { tested: Number(decided), noGo, trials: correct + incorrect, incorrect },
        faults.map((fault) => fault.code),
      )
    }
    for (const { code, mark, faults } of body.majors) {
      if (mark === null) continue
      const noGo = Number(mark === 'NO-GO')
      add(`major ${body.standard} ${code}`, { tested: 1, noGo, trials: 1, incorrect: noGo }, faults)
    }
  }
  return counts
}

export interface SponsorCount {
  attempts: number
  passes: number
  firstAttempts: number
  firstPasses: number
}

/** Counts by sponsor on the sheet. */
export function recountSponsors(
  attempts: readonly CountedAttempt[],
  filter: FindingsFilter,
): Record<string, SponsorCount> {
  const counts: Record<string, SponsorCount> = {}
  for (const { sheet, kind } of attempts.filter((one) => isAbout(one, filter))) {
    const { sponsorId } = sheet.body
    if (sponsorId === null) continue
    const count = counts[sponsorId] ?? { attempts: 0, passes: 0, firstAttempts: 0, firstPasses: 0 }
    counts[sponsorId] = count
    const passed = Number(sheet.score.outcome === 'GO')
    count.attempts += 1
    count.passes += passed
    if (kind === 'first') {
      count.firstAttempts += 1
      count.firstPasses += passed
    }
  }
  return counts
}
