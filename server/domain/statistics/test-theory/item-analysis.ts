import { requireCount } from '../numeric/require-count.ts'
import { judgeRate, type RateJudgement } from '../proportions/judge-rate.ts'
import { type Change, changesWithout } from './change-without.ts'
import { type ItemRest, itemRestCorrelation } from './item-rest-correlation.ts'
import { kuderRichardson, type Reliability } from './kuder-richardson.ts'
import { type ResponsePattern, responseSums } from './response-sums.ts'

export type ItemRemark = 'everybody-alike' | 'works-against-the-rest' | 'reliability-rises-without'
export type AnalysedItem = {
  difficulty: RateJudgement
  itemRest: ItemRest
  ifDeleted: Reliability
  /** By how much KR-20 is higher without it. */
  change: Change | null
  remarks: ItemRemark[]
}
export type ItemAnalysis = { sheets: number; leftOut: number; reliability: Reliability; items: AnalysedItem[] }

/**
 * The quality of a standard as a test: how hard each measure is, whether it tells good from bad, and how far the whole
 * score can be relied on.
 *
 * `difficulty` is the share that passed (a high one: an easy measure), as classical test theory has it. `ifDeleted`
 * is KR-20 of the other items. Remarks point at measures to look at and are no verdict by themselves: see the
 * intervals.
 * - "everybody-alike": all passed or all failed; it adds nothing to telling them apart
 * - "works-against-the-rest": a negative corrected item–total correlation
 * - "reliability-rises-without": KR-20 is higher without it, and the interval of the difference excludes 0
 * In: patterns of the sheets on which every item was decided; how many sheets were left out because they were stopped or
 * undecided. Out: items in the order given, `leftOut` passed on so that it is shown. Sheets left out are mostly bad
 * ones, so the figures hold for tests that were carried through.
 */
export function itemAnalysis(patterns: readonly ResponsePattern[], leftOut: number, level = 0.95): ItemAnalysis {
  requireCount(leftOut, 'itemAnalysis: leftOut')
  const sums = responseSums(patterns)
  const changes = changesWithout(patterns, sums, level)
  const places = sums.together.map((_, i) => i)
  const reliability = kuderRichardson(sums, places, level)
  const items = places.map((item) => {
    const difficulty = judgeRate({ count: sums.together[item]![item]!, n: sums.sheets }, level)
    const itemRest = itemRestCorrelation(sums, item, level)
    const others = places.filter((place) => place !== item)
    const ifDeleted = kuderRichardson(sums, others, level)
    const change = changes[item] ?? null
    return { difficulty, itemRest, ifDeleted, change, remarks: remarksOn(itemRest, change) }
  })
  return { sheets: sums.sheets, leftOut, reliability, items }
}

function remarksOn(itemRest: ItemRest, change: Change | null): ItemRemark[] {
  const remarks: ItemRemark[] = []
  if (itemRest.kind === 'undefined' && itemRest.reason === 'item-never-varies') remarks.push('everybody-alike')
  if (itemRest.kind === 'correlation' && itemRest.value < 0) remarks.push('works-against-the-rest')
  if (change !== null && change.interval.low > 0) remarks.push('reliability-rises-without')
  return remarks
}
