import { scoreMinor } from '#scoring/score-minor.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import { type RunningSheet, trialAt } from './running-sheet.ts'

type Marked = Pick<RunningSheet, 'trials' | 'majors'>

/** Places of a measure's trials in the order of calls, by trial. */
export const callsOf = ({ calls }: Pick<ScoredStandard, 'calls'>, measure: string): number[] =>
  calls
    .map((call, index) => ({ ...call, index }))
    .filter((call) => call.measure === measure)
    .sort((a, b) => a.trial - b.trial)
    .map(({ index }) => index)

/** So many calls are completed: up to the last one marked. */
export const completedCalls = (sheet: Pick<RunningSheet, 'trials'>): number =>
  Object.entries(sheet.trials).reduce(
    (most, [call, { mark }]) => (mark === null ? most : Math.max(most, Number(call) + 1)),
    0,
  )

/** After so many calls a major NO-GO ended the test; null while none did. */
export const endedAfter = (sheet: Pick<RunningSheet, 'majors'>): number | null => {
  const ends = Object.values(sheet.majors).flatMap(({ mark, atCall }) => (mark === 'NO-GO' ? [atCall ?? 0] : []))
  return ends.length === 0 ? null : Math.min(...ends)
}

/** The calls of an unbroken run, which stand on one page; else the call alone. */
export const runOf = (calls: readonly { readonly unbroken?: string | undefined }[], at: number): number[] => {
  const run = calls[at]?.unbroken
  if (run === undefined) return [at]
  let first = at
  let last = at
  while (calls[first - 1]?.unbroken === run) first -= 1
  while (calls[last + 1]?.unbroken === run) last += 1
  return Array.from({ length: last - first + 1 }, (_, index) => first + index)
}

/** Is the measure of a call decided by its earlier trials, so that the call can be left out? */
export const isDecidedBefore = (standard: ScoredStandard, sheet: Marked, call: number): boolean => {
  const own = standard.calls[call]
  if (!own) return false
  const before = callsOf(standard, own.measure).filter((other) => standard.calls[other]!.trial < own.trial)
  const readings = before.flatMap((other) =>
    trialAt(sheet, other).readings.map((reading) => ({ ...reading, trial: standard.calls[other]!.trial })),
  )
  const gauges = new Map(standard.gauges.map((gauge) => [gauge.code, gauge]))
  const trials = before.map((other) => trialAt(sheet, other).mark)
  return scoreMinor({ code: own.measure, trials, readings }, standard.rule, gauges).outcome !== null
}

/** Has the call its mark, or need it none? */
export const isDone = (standard: ScoredStandard, sheet: Marked, call: number): boolean => {
  const { mark, notCalled } = trialAt(sheet, call)
  return mark !== null || (notCalled && isDecidedBefore(standard, sheet, call))
}

/** The calls that still want a mark, in order; none once a major NO-GO ended the test. */
export const openCalls = (standard: ScoredStandard, sheet: Marked): number[] =>
  endedAfter(sheet) === null
    ? standard.calls.map((_, index) => index).filter((call) => !isDone(standard, sheet, call))
    : []

/** Can the call be marked: is the test still on, and every earlier trial of the measure marked, or marked with it? */
export const isMarkable = (
  standard: ScoredStandard,
  sheet: Marked,
  call: number,
  together: readonly number[] = [],
): boolean => {
  const own = standard.calls[call]
  if (!own || call >= (endedAfter(sheet) ?? Number.POSITIVE_INFINITY)) return false
  return callsOf(standard, own.measure).every(
    (other) =>
      standard.calls[other]!.trial >= own.trial || trialAt(sheet, other).mark !== null || together.includes(other),
  )
}

/** Is a later trial of the same measure marked? Then this one cannot become blank. */
export const isFollowed = (standard: ScoredStandard, sheet: Marked, call: number): boolean => {
  const own = standard.calls[call]!
  return callsOf(standard, own.measure).some(
    (other) => standard.calls[other]!.trial > own.trial && trialAt(sheet, other).mark !== null,
  )
}

/**
 * The calls from the one shown on that are called running, of one measure, and wait for their mark: what "all three correct" is about.
 * Empty where fewer than two are left, or where something was noted on one of them.
 */
export const runningFrom = (standard: ScoredStandard, sheet: Marked, at: number): number[] => {
  const calls: number[] = []
  for (let call = at; standard.calls[call] && standard.calls[call]!.measure === standard.calls[at]!.measure; call++) {
    const { mark, faults, readings } = trialAt(sheet, call)
    if (mark !== null || faults.length > 0 || readings.length > 0) return []
    calls.push(call)
  }
  const areMarkable = calls.every((call) => isMarkable(standard, sheet, call, calls))
  return calls.length > 1 && areMarkable ? calls : []
}
