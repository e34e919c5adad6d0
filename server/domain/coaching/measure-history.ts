import type { PlainDate } from '../calendar/plain-date.ts'

/** A test with marks: its day, the version it was taken under, and the outcome of each measure of that version. */
export interface MarkedTest {
  readonly day: PlainDate
  readonly version: number
  /** G, N or - (not tested) for each major and then each minor of the version. */
  readonly marks: string
}

export interface Measures {
  readonly majors: readonly { readonly code: string }[]
  readonly minors: readonly { readonly code: string }[]
}

export interface Decided {
  readonly day: PlainDate
  readonly version: number
  readonly go: boolean
}

/** One measure over a candidate's tests, the oldest first; tests that did not decide it are left out. */
export interface MeasureHistory {
  readonly measure: string
  readonly major: boolean
  readonly decided: readonly Decided[]
}

/**
 * What became of each measure of a standard, test after test. In: the tests in order, the definitions by version, and the
 * version whose measures are asked about. Out: one history a measure, in its order; measures are the same by code.
 */
export function measureHistories(
  tests: readonly MarkedTest[],
  definitions: ReadonlyMap<number, Measures>,
  current: Measures,
): MeasureHistory[] {
  const decided = new Map<string, Decided[]>()
  for (const { day, version, marks } of tests) {
    const definition = definitions.get(version)
    if (!definition) continue
    for (const [place, { code }] of [...definition.majors, ...definition.minors].entries()) {
      const mark = marks[place]
      if (mark !== 'G' && mark !== 'N') continue
      decided.set(code, [...(decided.get(code) ?? []), { day, version, go: mark === 'G' }])
    }
  }
  const toHistory = (major: boolean) => (one: { readonly code: string }) => ({
    measure: one.code,
    major,
    decided: decided.get(one.code) ?? [],
  })
  return [...current.majors.map(toHistory(true)), ...current.minors.map(toHistory(false))]
}
