import { type MeasureEra, measureEras } from '../standards/measure-eras.ts'
import type { RatedSheets } from '../statistics/agreement/rating-tally.ts'
import { type Outcome, readPattern } from './read-pattern.ts'
import { byStandard, type OfVersion } from './version-counts.ts'

/** Attempts graded by several, all with exactly these marks and outcomes: the first grader's sheet, then the others. */
export type RatedPattern = OfVersion<{
  readonly attempts: number
  readonly outcome: 'GO' | 'NO-GO'
  readonly marks: string
  readonly others: readonly OfVersion<{ readonly marks: string; readonly outcome: 'GO' | 'NO-GO' }>[]
}>

/** Ratings of one measure, or of the whole test (measure null, all versions). */
export interface PooledRatings extends Omit<MeasureEra, 'measure'> {
  readonly standard: string
  readonly measure: string | null
  /** First grader (row) beside the second (column), GO then NO-GO, on attempts both decided. */
  readonly table: readonly [readonly [number, number], readonly [number, number]]
  /** GO and NO-GO ratings of an attempt, on attempts that two or more decided. */
  readonly rated: readonly RatedSheets[]
}

/**
 * Who saw what on attempts graded twice or more: for the whole test and for every measure, majors first.
 * In: patterns. Out: by standard and measure; graders' marks are held together only where both versions define the measure
 * alike. What nobody decided twice is left out.
 */
export function poolRatings(patterns: readonly RatedPattern[]): PooledRatings[] {
  return [...byStandard(patterns)].flatMap(([standard, ofStandard]) => {
    const all = ofStandard.flatMap(({ of, others }) => [of, ...others.map((other) => other.of)])
    const versions = [...new Map(all.map((of) => [of.version, of])).values()]
    const eras = measureEras(versions)
    const whole = {
      major: false,
      versions: versions.map(({ version }) => version).sort((a, b) => a - b),
      isCurrent: true,
    }
    const ofTest = ofStandard.map(({ attempts, outcome, others }) => ({
      attempts,
      outcomes: [outcome, ...others.map((other) => other.outcome)],
    }))
    const distinct = new Set([...eras.values()].flatMap((byMeasure) => [...byMeasure.values()]))
    const measures = [...distinct].map((era) => ({
      ...era,
      standard,
      ...ratings(
        ofStandard.map((pattern) => ({ attempts: pattern.attempts, outcomes: outcomesIn(era, eras, pattern) })),
      ),
    }))
    return [{ ...whole, measure: null, standard, ...ratings(ofTest) }, ...measures].filter(
      ({ rated }) => rated.length > 0,
    )
  })
}

function outcomesIn(
  era: MeasureEra,
  eras: ReadonlyMap<number, ReadonlyMap<string, MeasureEra>>,
  { of, marks, others }: RatedPattern,
): Outcome[] {
  return [{ of, marks }, ...others].map((sheet) => {
    if (eras.get(sheet.of.version)!.get(era.measure) !== era) return null
    const { majors, minors } = readPattern(sheet.of.definition, sheet.marks)
    return (era.major ? majors : minors).get(era.measure) ?? null
  })
}

function ratings(patterns: readonly { readonly attempts: number; readonly outcomes: readonly Outcome[] }[]) {
  const table: [[number, number], [number, number]] = [
    [0, 0],
    [0, 0],
  ]
  const rated: RatedSheets[] = []
  for (const { attempts, outcomes } of patterns) {
    const [first, second] = outcomes
    if (first != null && second != null) table[first === 'GO' ? 0 : 1][second === 'GO' ? 0 : 1] += attempts
    const go = outcomes.filter((outcome) => outcome === 'GO').length
    const noGo = outcomes.filter((outcome) => outcome === 'NO-GO').length
    if (go + noGo >= 2) rated.push({ ratings: [go, noGo], sheets: attempts })
  }
  return { table, rated }
}
