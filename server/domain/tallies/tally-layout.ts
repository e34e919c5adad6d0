import { type ReadingGrid, readingGrid } from './reading-grid.ts'

/** The part of a standard's version that tallies count. */
export interface CountedDefinition {
  readonly majors: readonly { readonly code: string; readonly faults: readonly { readonly code: string }[] }[]
  readonly minors: readonly {
    readonly code: string
    readonly gauges: readonly string[]
    readonly faults: readonly { readonly code: string }[]
  }[]
  readonly gauges: readonly {
    readonly code: string
    readonly min: string | null
    readonly max: string | null
    readonly target?: string | null | undefined
  }[]
}

/** Which counter stands where in a tally of a version. Tallies hold nothing but numbers, so a layout never changes. */
export interface TallyLayout {
  /** Majors, then minors; each has four counters running: tested, NO-GO, trials, incorrect. */
  readonly measures: readonly { readonly code: string; readonly major: boolean }[]
  /** The faults of the measures in their order, one counter each. */
  readonly faults: readonly { readonly measure: string; readonly major: boolean; readonly fault: string }[]
  /** The gauges of the minors in their order: from `start` on a counter of overridden readings, then one a bin. */
  readonly gauges: readonly {
    readonly measure: string
    readonly gauge: string
    readonly start: number
    readonly grid: ReadingGrid
  }[]
}

/** Counters of a measure: tested, NO-GO, trials, incorrect. */
export const MEASURE_COUNTERS = 4

/** The layout of a version's tallies. In: its definition, which never changes once it is stored. */
export function tallyLayout({ majors, minors, gauges }: CountedDefinition): TallyLayout {
  const all = [
    ...majors.map((major) => ({ ...major, major: true })),
    ...minors.map((minor) => ({ ...minor, major: false })),
  ]
  let start = 0
  const placed = minors.flatMap(({ code: measure, gauges: codes }) =>
    [...new Set(codes)].map((gauge) => {
      const here = { measure, gauge, start, grid: readingGrid(gauges.find(({ code }) => code === gauge)!) }
      start += 1 + here.grid.size
      return here
    }),
  )
  return {
    measures: all.map(({ code, major }) => ({ code, major })),
    faults: all.flatMap(({ code, major, faults }) =>
      faults.map((fault) => ({ measure: code, major, fault: fault.code })),
    ),
    gauges: placed,
  }
}

/** How many counters a layout has for readings. */
export function readingCounters({ gauges }: TallyLayout): number {
  const last = gauges.at(-1)
  return last ? last.start + 1 + last.grid.size : 0
}
