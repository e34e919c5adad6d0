import { measureEras } from '../standards/measure-eras.ts'
import { readPattern } from './read-pattern.ts'
import { byStandard, type OfVersion } from './version-counts.ts'

/** One sheet of an attempt that several graded. */
type GradedSheet = OfVersion<{ readonly graderId: string; readonly marks: string }>

/** An attempt with the sheets of all its graders. */
export type GradedAttempt = OfVersion<{ readonly sheets: readonly GradedSheet[] }>

/** How a grader marked attempts that others graded too. */
export interface StricterOf {
  /** Pairs of sheets: attempts, where two graded it. */
  readonly pairs: number
  /** Pairs in which more measures were NO-GO here and GO on the other sheet than the other way round, and the reverse. */
  readonly stricter: number
  readonly lenient: number
}

/**
 * Who was stricter on attempts graded twice or more. A pair of sheets is compared over the measures both decided, majors and
 * minors, that both versions define alike; where as many differ one way as the other, neither was stricter.
 * Out: by grader.
 */
export function whoWasStricter(attempts: readonly GradedAttempt[]): Map<string, StricterOf> {
  const found = new Map<string, StricterOf>()
  const add = (graderId: string, difference: number) => {
    const { pairs, stricter, lenient } = found.get(graderId) ?? { pairs: 0, stricter: 0, lenient: 0 }
    found.set(graderId, {
      pairs: pairs + 1,
      stricter: stricter + Number(difference > 0),
      lenient: lenient + Number(difference < 0),
    })
  }
  for (const ofStandard of byStandard(attempts).values()) {
    const versions = ofStandard.flatMap(({ sheets }) => sheets.map(({ of }) => of))
    const eras = measureEras([...new Map(versions.map((of) => [of.version, of])).values()])
    for (const { sheets } of ofStandard) {
      sheets.forEach((one, i) => {
        for (const other of sheets.slice(i + 1)) {
          const difference = stricterMeasures(one, other, eras)
          add(one.graderId, difference)
          add(other.graderId, -difference)
        }
      })
    }
  }
  return found
}

/** Measures NO-GO on the first sheet and GO on the second, less those the other way round. */
function stricterMeasures(one: GradedSheet, other: GradedSheet, eras: ReturnType<typeof measureEras>): number {
  const [first, second] = [readPattern(one.of.definition, one.marks), readPattern(other.of.definition, other.marks)]
  const [own, others] = [eras.get(one.of.version)!, eras.get(other.of.version)!]
  let difference = 0
  for (const kind of ['majors', 'minors'] as const) {
    for (const [code, outcome] of first[kind]) {
      const there = second[kind].get(code)
      if (outcome === null || there == null || own.get(code) !== others.get(code)) continue
      if (outcome !== there) difference += outcome === 'NO-GO' ? 1 : -1
    }
  }
  return difference
}
