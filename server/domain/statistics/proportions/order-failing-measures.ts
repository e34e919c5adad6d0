import { compareText } from '../compare-text.ts'
import { requireCount } from '../numeric/require-count.ts'
import { judgeRate, type RateJudgement } from './judge-rate.ts'

export type FaultCount = { code: string; count: number }
export type MeasureCounts = {
  measure: string
  tested: number
  noGo: number
  trials: number
  incorrect: number
  faults: readonly FaultCount[]
}
export type FailingMeasure<Counts extends MeasureCounts = MeasureCounts> = Counts & {
  rate: RateJudgement
  incorrectShare: number | null
  faults: (FaultCount & { ofIncorrect: number | null })[]
}

/**
 * The measures of a standard from the one failed most often: NO-GO among tested with its interval, the trials and the
 * faults behind it.
 *
 * In: counts of each measure, with whatever else is known of it, which is passed on. `tested` are decided ones, so what was not reached or stayed undecided is in neither
 * number; `trials` are all marked trials, those of stopped sheets included; faults are those on incorrect trials.
 * Out: by rate, then by number tested, then by code; measures nobody was tested on come last with "no-data".
 * `incorrectShare` is of trials and `ofIncorrect` of incorrect trials (one trial can have several faults, so these
 * may add up to more than 1); null where there are none. Neither has an interval, because trials of one soldier are
 * not independent.
 */
export function orderFailingMeasures<Counts extends MeasureCounts>(
  measures: readonly Counts[],
  level = 0.95,
): FailingMeasure<Counts>[] {
  return measures.map((measure) => judge(measure, level)).sort(byRate)
}

function judge<Counts extends MeasureCounts>(counts: Counts, level: number): FailingMeasure<Counts> {
  const { measure, tested, noGo, trials, incorrect } = counts
  requireCount(trials, `${measure}: trials`)
  requireCount(incorrect, `${measure}: incorrect`, trials)
  const faults = counts.faults
    .map((fault) => ({ ...fault, ofIncorrect: incorrect === 0 ? null : fault.count / incorrect }))
    .sort((x, y) => y.count - x.count || compareText(x.code, y.code))
  const incorrectShare = trials === 0 ? null : incorrect / trials
  return { ...counts, rate: judgeRate({ count: noGo, n: tested }, level), incorrectShare, faults }
}

function byRate(x: FailingMeasure, y: FailingMeasure): number {
  const [left, right] = [x, y].map(({ rate }) => (rate.kind === 'rate' ? rate.rate : -1)) as [number, number]
  return right - left || y.tested - x.tested || compareText(x.measure, y.measure)
}
