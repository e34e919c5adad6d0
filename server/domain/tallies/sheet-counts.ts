import type { MarkedMajor, MarkedMinor, SheetScore } from '../scoring/types.ts'
import { MEASURE_COUNTERS, readingCounters, type TallyLayout } from './tally-layout.ts'

/** Counts at the places of a layout. */
export interface TallyCounts {
  readonly measures: readonly number[]
  readonly faults: readonly number[]
  readonly readings: readonly number[]
}

/** What a grader wrote, as far as it is counted. */
export interface CountedMarks {
  readonly majors: readonly MarkedMajor[]
  readonly minors: readonly MarkedMinor[]
}

/**
 * The counts of one sheet: a minor is tested when it was decided, its trials are the marked ones by their effective marks,
 * also where the test was stopped before it was decided; a major is tested when it was marked, and is one trial. Readings
 * are all that were taken. An outcome-only record counts nothing.
 */
export function sheetCounts(layout: TallyLayout, score: SheetScore, marks: CountedMarks): TallyCounts {
  const measures = new Array<number>(layout.measures.length * MEASURE_COUNTERS).fill(0)
  const faults = new Array<number>(layout.faults.length).fill(0)
  const readings = new Array<number>(readingCounters(layout)).fill(0)
  if (score.ending === 'recorded') return { measures, faults, readings }
  const count = (major: boolean, code: string, counts: readonly [number, number, number, number]) => {
    const place = layout.measures.findIndex((measure) => measure.major === major && measure.code === code)
    counts.forEach((value, i) => {
      measures[place * MEASURE_COUNTERS + i]! += value
    })
  }
  const countFault = (major: boolean, measure: string, fault: string) => {
    const place = layout.faults.findIndex(
      (one) => one.major === major && one.measure === measure && one.fault === fault,
    )
    faults[place]! += 1
  }
  for (const { code, outcome, correct, incorrect, faults: noted } of score.minors) {
    const isNoGo = outcome === 'NO-GO'
    count(false, code, [isNoGo || outcome === 'GO' ? 1 : 0, isNoGo ? 1 : 0, correct + incorrect, incorrect])
    for (const fault of noted) countFault(false, code, fault.code)
  }
  for (const { code, mark, faults: noted } of marks.majors) {
    const isNoGo = mark === 'NO-GO' ? 1 : 0
    if (mark != null) count(true, code, [1, isNoGo, 1, isNoGo])
    for (const fault of noted ?? []) countFault(true, code, fault)
  }
  for (const { code, readings: taken } of marks.minors) {
    for (const { gauge, value, override } of taken ?? []) {
      const { start, grid } = layout.gauges.find((one) => one.measure === code && one.gauge === gauge)!
      readings[start + 1 + grid.placeOf(value)]! += 1
      if (override != null) readings[start]! += 1
    }
  }
  return { measures, faults, readings }
}
