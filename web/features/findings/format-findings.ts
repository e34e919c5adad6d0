import { FEW, failingOrder } from '../../domain/findings/failing-order.ts'
import type { MeasureCounts } from '../../domain/findings/finding-counts.ts'
import { figure, plural } from '../../words/format-number.ts'

/** The answer on failing measures: the one that fails most, in counts. */
export const formatFailing = <Measure extends MeasureCounts>(
  measures: readonly Measure[],
  titleOf: (measure: Measure) => string,
): string => {
  const tested = measures.filter((measure) => measure.tested > 0)
  if (tested.length === 0) return 'No test counts for these filters yet.'
  const [worst] = failingOrder(tested)
  if (!worst || worst.noGo === 0) return 'No measure was NO-GO in the tests these filters find.'
  return `${titleOf(worst)} fails most: NO-GO in ${figure(worst.noGo)} of ${figure(worst.tested)}.`
}

/** How much stands behind it, and the fault noted most on the worst measure. */
export const formatFailingWhy = (
  measures: readonly MeasureCounts[],
  titleOf: { fault: (measure: MeasureCounts, code: string) => string },
): string => {
  const tested = measures.filter((measure) => measure.tested > 0)
  if (tested.length === 0) return 'Choose a longer period, another unit, or all attempts.'
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
