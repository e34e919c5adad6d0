import { isDeepStrictEqual } from 'node:util'
import { MeasureFindings } from '../../../server/contract/findings/findings.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import { tallyLayout } from '../../../server/domain/tallies/tally-layout.ts'
import { MeasureCounts } from './hand-written/failing-measures.ts'

interface Counts {
  readonly tested: number
  readonly noGo: number
  readonly trials: number
  readonly incorrect: number
  readonly faults: readonly (readonly [string, number])[]
  /** Of all other units. */
  readonly rest: { readonly tested: number; readonly noGo: number }
}

/** Whether the product's failing measures and the hand-written counts of one standard say the same. */
export function sameMeasureCounts(standard: StandardBody, product: unknown, byHand: unknown): boolean {
  const findings = MeasureFindings.parse(product)
  const counts = MeasureCounts.parse(byHand)
  const { level: _, notCounted, ...totals } = findings.basis
  const { counts: _own, ...ownTotals } = counts.own
  return (
    isDeepStrictEqual(ofProduct(findings), ofTallies(standard, counts)) &&
    isDeepStrictEqual(totals, ownTotals) &&
    isDeepStrictEqual(notCounted, counts.notCounted)
  )
}

function ofProduct({ items, majors }: MeasureFindings): Record<string, Counts> {
  const minors = items.map(({ measure, ...one }) => ({ ...one, code: measure }))
  const all = majors.map(({ major: code, judged, noGo, ...one }) => {
    return { ...one, code, noGo, tested: judged, trials: judged, incorrect: noGo }
  })
  return Object.fromEntries(
    [...minors, ...all]
      .sort((a, b) => (a.code < b.code ? -1 : 1))
      .map(({ code, tested, noGo, trials, incorrect, faults, rest }) => [
        code,
        {
          tested,
          noGo,
          trials,
          incorrect,
          faults: faults.map((fault) => [fault.code, fault.count] as const).sort(),
          rest: { tested: rest?.tested ?? 0, noGo: rest?.noGo ?? 0 },
        },
      ]),
  )
}

function ofTallies(
  standard: StandardBody,
  { own: { counts: own }, whole: { counts: whole } }: MeasureCounts,
): Record<string, Counts> {
  const layout = tallyLayout(standard)
  const firstFault = layout.measures.length * 4
  return Object.fromEntries(
    layout.measures
      .map(({ code }, place) => ({ code, at: place * 4 }))
      .sort((a, b) => (a.code < b.code ? -1 : 1))
      .map(({ code, at }) => [
        code,
        {
          tested: own[at]!,
          noGo: own[at + 1]!,
          trials: own[at + 2]!,
          incorrect: own[at + 3]!,
          faults: layout.faults
            .flatMap(({ measure, fault }, i) => (measure === code ? [[fault, own[firstFault + i]!] as const] : []))
            .filter(([, count]) => count > 0)
            .sort(),
          rest: { tested: whole[at]! - own[at]!, noGo: whole[at + 1]! - own[at + 1]! },
        },
      ]),
  )
}
