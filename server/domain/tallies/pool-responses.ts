import { measureEras } from '../standards/measure-eras.ts'
import type { ResponsePattern } from '../statistics/test-theory/response-sums.ts'
import { distinctVersions } from './pool-measures.ts'
import { byStandard, byVersion, type PatternCount } from './version-counts.ts'

/** The answers of sheets that decided every minor, over versions that are one and the same test. */
export interface PooledResponses {
  readonly standard: string
  readonly versions: readonly number[]
  readonly isCurrent: boolean
  /** Codes of the minors, in the order of the patterns. */
  readonly measures: readonly string[]
  /** One at least: without a sheet one of count 0, so that there are items. */
  readonly complete: readonly ResponsePattern[]
  /** Sheets with marks on which some minor stayed undecided, and outcome-only ones. */
  readonly undecided: number
  readonly recorded: number
}

/**
 * Gathers what item analysis needs. In: patterns of marks and how many sheets have them. Out: by standard one row for each
 * group of versions whose minors are all the same and defined alike, oldest first.
 */
export function poolResponses(patterns: readonly PatternCount[]): PooledResponses[] {
  return [...byStandard(patterns)].flatMap(([standard, ofStandard]) => {
    const tests = sameTests(ofStandard)
    const newest = Math.max(...tests.flat())
    const rowsOf = byVersion(ofStandard)
    return tests.map((versions) => {
      const rows = versions.map((version) => rowsOf.get(version)!)
      const measures = rows[0]![0]!.of.definition.minors.map(({ code }) => code)
      const answers = rows.map((ofVersion) => answersIn(ofVersion, measures))
      const sum = (of: 'undecided' | 'recorded') => answers.reduce((total, one) => total + one[of], 0)
      const none = { marks: measures.map(() => 0), count: 0 }
      return {
        standard,
        versions,
        isCurrent: versions.includes(newest),
        measures,
        complete: [...answers.flatMap(({ complete }) => complete), none],
        undecided: sum('undecided'),
        recorded: sum('recorded'),
      }
    })
  })
}

/** Version numbers, together where their minors are all the same and defined alike. */
function sameTests(ofStandard: readonly PatternCount[]): number[][] {
  const versions = distinctVersions(ofStandard).sort((a, b) => a.version - b.version)
  const eras = measureEras(versions)
  const tests = new Map<string, number[]>()
  for (const { version, definition } of versions) {
    const own = definition.minors.map(({ code }) => `${code} ${eras.get(version)!.get(code)!.versions[0]}`)
    const key = own.sort().join()
    tests.set(key, [...(tests.get(key) ?? []), version])
  }
  return [...tests.values()]
}

/** Of patterns of one version: those that decided every measure, as 1 and 0 in the order given, and how many did not. */
function answersIn(rows: readonly PatternCount[], measures: readonly string[]) {
  const { majors, minors } = rows[0]!.of.definition
  const places = measures.map((code) => majors.length + minors.findIndex((minor) => minor.code === code))
  const complete: ResponsePattern[] = []
  let [undecided, recorded] = [0, 0]
  for (const { marks, sheets } of rows) {
    if (marks === '') recorded += sheets
    else if (marks.indexOf('-', majors.length) !== -1) undecided += sheets
    else complete.push({ marks: places.map((place) => (marks[place] === 'G' ? 1 : 0)), count: sheets })
  }
  return { complete, undecided, recorded }
}
