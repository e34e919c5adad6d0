import { type MeasureEra, measureEras } from '../standards/measure-eras.ts'
import type { MeasurePair } from '../statistics/proportions/failing-together.ts'
import { pairStrata } from './pair-strata.ts'
import { distinctVersions } from './pool-measures.ts'
import { byStandard, byVersion, type PatternCount } from './version-counts.ts'

const LETTERS = new TextEncoder()
const GO = 'G'.charCodeAt(0)
const NO_GO = 'N'.charCodeAt(0)

/** A pair of minors as defined alike in these versions. */
export interface PooledPair extends MeasurePair {
  readonly versions: readonly number[]
  readonly isCurrent: boolean
}

/**
 * How often two minor measures were failed together, for every pair of each standard, among the sheets that decided both, and
 * the same by strata of ability.
 * In: patterns of marks and how many sheets have them. Out: by standard; versions are pooled for a pair where neither of
 * the two measures changed. Pairs that no sheet decided are in it with zeros.
 */
export function poolPairs(patterns: readonly PatternCount[]): Map<string, PooledPair[]> {
  return new Map(
    [...byStandard(patterns)].map(([standard, ofStandard]) => {
      const eras = measureEras(distinctVersions(ofStandard))
      const strataOf = pairStrata(ofStandard, eras)
      const pairs = new Map<MeasureEra, Map<MeasureEra, MutablePair>>()
      for (const [version, rows] of byVersion(ofStandard)) addVersion(pairs, rows, eras.get(version)!)
      const withStrata = [...pairs].flatMap(([first, seconds]) =>
        [...seconds].map(([second, pair]): PooledPair => ({ ...pair, strata: strataOf(first, second) })),
      )
      return [standard, withStrata]
    }),
  )
}

interface MutablePair extends Omit<PooledPair, 'strata'> {
  readonly counts: { both: number; firstOnly: number; secondOnly: number; neither: number }
}

function addVersion(
  pairs: Map<MeasureEra, Map<MeasureEra, MutablePair>>,
  rows: readonly PatternCount[],
  eras: ReadonlyMap<string, MeasureEra>,
): void {
  const { majors, minors } = rows[0]!.of.definition
  const own = minors.map(({ code }) => eras.get(code)!)
  const codes = rows.map(({ marks }) => LETTERS.encode(marks))
  const sheets = rows.map((row) => row.sheets)
  for (let i = 0; i < own.length; i++) {
    for (let j = i + 1; j < own.length; j++) {
      const { counts } = pairOf(pairs, own[i]!, own[j]!)
      const isSwapped = own[j]!.measure < own[i]!.measure
      const places = [majors.length + i, majors.length + j] as const
      const [first, second] = isSwapped ? [places[1], places[0]] : places
      for (let row = 0; row < rows.length; row++) {
        const a = codes[row]![first]
        const b = codes[row]![second]
        const n = sheets[row]!
        if (a === NO_GO && b === NO_GO) counts.both += n
        else if (a === NO_GO && b === GO) counts.firstOnly += n
        else if (a === GO && b === NO_GO) counts.secondOnly += n
        else if (a === GO && b === GO) counts.neither += n
      }
    }
  }
}

/** The pair in which the measure with the lesser code is first, in whatever order versions list them. */
function pairOf(pairs: Map<MeasureEra, Map<MeasureEra, MutablePair>>, one: MeasureEra, other: MeasureEra): MutablePair {
  const [first, second] = one.measure < other.measure ? [one, other] : [other, one]
  const seconds = pairs.get(first) ?? new Map<MeasureEra, MutablePair>()
  pairs.set(first, seconds)
  const known = seconds.get(second)
  if (known) return known
  const pair: MutablePair = {
    first: first.measure,
    second: second.measure,
    counts: { both: 0, firstOnly: 0, secondOnly: 0, neither: 0 },
    versions: first.versions.filter((version) => second.versions.includes(version)),
    isCurrent: first.isCurrent && second.isCurrent,
  }
  seconds.set(second, pair)
  return pair
}
