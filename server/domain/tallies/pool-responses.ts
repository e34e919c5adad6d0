import { measureEras } from '../standards/measure-eras.ts'
import { type ResponsePattern, type ResponseSums, responseSums } from '../statistics/test-theory/response-sums.ts'
import { distinctVersions } from './pool-measures.ts'
import type { PatternCount } from './pool-pairs.ts'
import { readPattern } from './read-pattern.ts'
import { byStandard } from './version-counts.ts'

/** The answers of sheets that decided every minor, over versions that are one and the same test. */
export interface PooledResponses {
  readonly standard: string
  readonly versions: readonly number[]
  readonly isCurrent: boolean
  /** Codes of the minors, in the order of the sums. */
  readonly measures: readonly string[]
  readonly sums: ResponseSums
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
    const versions = distinctVersions(ofStandard).sort((a, b) => a.version - b.version)
    const eras = measureEras(versions)
    const groups = new Map<string, number[]>()
    for (const { version, definition } of versions) {
      const own = definition.minors.map(({ code }) => [code, eras.get(version)!.get(code)!.versions[0]])
      const key = JSON.stringify(own.sort())
      groups.set(key, [...(groups.get(key) ?? []), version])
    }
    const newest = versions.at(-1)!.version
    return [...groups.values()].map((members) => {
      const rows = ofStandard.filter(({ of }) => members.includes(of.version))
      const measures = rows[0]!.of.definition.minors.map(({ code }) => code)
      const marked = rows.filter(({ marks }) => marks !== '')
      const answers = marked.map((row) => ({ row, marks: answersOf(row, measures) }))
      const complete = answers.filter(({ marks }) => marks !== null)
      const count = (some: readonly { readonly sheets: number }[]) => some.reduce((sum, { sheets }) => sum + sheets, 0)
      return {
        standard,
        versions: members,
        isCurrent: members.includes(newest),
        measures,
        sums: sumsOf(
          complete.map(({ row, marks }) => ({ marks: marks!, count: row.sheets })),
          measures.length,
        ),
        undecided: count(answers.filter(({ marks }) => marks === null).map(({ row }) => row)),
        recorded: count(rows.filter(({ marks }) => marks === '')),
      }
    })
  })
}

/** 1 and 0 by measure; null where some measure is undecided. */
function answersOf({ of, marks }: PatternCount, measures: readonly string[]): number[] | null {
  const { minors } = readPattern(of.definition, marks)
  const outcomes = measures.map((code) => minors.get(code))
  return outcomes.includes(null) ? null : outcomes.map((outcome) => (outcome === 'GO' ? 1 : 0))
}

/** Without a sheet the sums still have their items. */
function sumsOf(patterns: readonly ResponsePattern[], items: number): ResponseSums {
  return responseSums([...patterns, { marks: new Array<number>(items).fill(0), count: 0 }])
}
