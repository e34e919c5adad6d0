import { FEW, failingOrder } from '../../model/failing-order.ts'
import type { MeasureCounts, SponsorCounts } from '../../model/finding-counts.ts'
import { figure, plural } from '../../words/say-number.ts'

/** The answer on failing measures: the one that fails most, in counts. */
export const sayFailing = (measures: readonly MeasureCounts[], titleOf: (measure: MeasureCounts) => string): string => {
  const tested = measures.filter((measure) => measure.tested > 0)
  if (tested.length === 0) return 'No test counts for these filters yet.'
  const [worst] = failingOrder(tested)
  if (!worst || worst.noGo === 0) return 'No measure was NO-GO in the tests these filters find.'
  return `${titleOf(worst)} fails most: NO-GO in ${figure(worst.noGo)} of ${figure(worst.tested)}.`
}

/** How much stands behind it, and the fault noted most on the worst measure. */
export const sayFailingWhy = (
  measures: readonly MeasureCounts[],
  titleOf: { fault: (measure: MeasureCounts, code: string) => string },
): string => {
  const tested = measures.filter((measure) => measure.tested > 0)
  if (tested.length === 0) return 'Choose a longer time, another unit, or all attempts.'
  const [worst] = failingOrder(tested)
  const fault = [...(worst?.faults ?? [])].sort((a, b) => b.count - a.count)[0]
  const noted =
    worst && worst.noGo > 0 && fault
      ? `Noted most on it: ${titleOf.fault(worst, fault.code)}, on ${figure(fault.count)} ${plural(fault.count, 'trial')}. `
      : ''
  const most = Math.max(...tested.map((measure) => measure.tested))
  const few = most < FEW ? ` So few tests say little.` : ''
  return `${noted}What a stopped or void test did not reach is not counted.${few}`
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)

/** The answer on sponsors: all their candidates together. Sponsors are not ranked. */
export const saySponsors = (sponsors: readonly SponsorCounts[]): string => {
  const attempts = sum(sponsors.map((sponsor) => sponsor.attempts))
  if (attempts === 0) return 'No attempt with a sponsor counts for these filters yet.'
  const passes = sum(sponsors.map((sponsor) => sponsor.passes))
  return `Candidates of ${figure(sponsors.length)} ${plural(sponsors.length, 'sponsor')} were GO in ${figure(passes)} of ${figure(attempts)} attempts.`
}

/** First attempts, and what the counts cannot tell. */
export const saySponsorsWhy = (sponsors: readonly SponsorCounts[]): string => {
  const first = sum(sponsors.map((sponsor) => sponsor.firstAttempts))
  if (first === 0) return 'Choose a longer time or another unit.'
  const passes = sum(sponsors.map((sponsor) => sponsor.firstPasses))
  const few = sponsors.filter((sponsor) => sponsor.attempts < FEW).length
  const caution =
    few > 0
      ? ` ${figure(few)} ${plural(few, 'has', 'have')} fewer than five attempts; that says little about anyone.`
      : ''
  return `First attempts: GO in ${figure(passes)} of ${figure(first)}. The list goes by name; chance alone moves small counts far.${caution}`
}
