import { toMillionths } from '#scoring/decimal.ts'
import type { Gauge } from '#scoring/types.ts'
import { READING } from '../../../domain/sheets/reading.ts'

const MILLION = 1_000_000
const STEPS = [10, 5, 1, 0.5, 0.25, 0.1, 0.05, 0.01]

/** The step of a gauge's readings: the largest usual one that leaves at least four steps within its band; 1 without a band. */
export const readingStep = ({ min, max }: Pick<Gauge, 'min' | 'max'>): number => {
  if (min == null || max == null) return 1
  const width = (toMillionths(max) - toMillionths(min)) / MILLION
  return STEPS.find((step) => step * 4 <= width) ?? 0.01
}

/** Where stepping begins: the target, else the middle of the band, else its one limit, else 0. */
const start = (gauge: Gauge & { readonly target?: string | null | undefined }): number => {
  if (gauge.target != null) return toMillionths(gauge.target)
  if (gauge.min != null && gauge.max != null) return (toMillionths(gauge.min) + toMillionths(gauge.max)) / 2
  return toMillionths(gauge.min ?? gauge.max ?? '0')
}

const asText = (millionths: number): string => String(Math.round(millionths / 100) / 10_000)

/** The reading one step up (1) or down (-1), exact; the first step from nothing lands where stepping begins. */
export const stepReading = (
  gauge: Gauge & { readonly target?: string | null | undefined },
  value: string,
  direction: 1 | -1,
): string => {
  if (!READING.test(value)) return asText(start(gauge))
  const next = asText(toMillionths(value) + direction * readingStep(gauge) * MILLION)
  return READING.test(next) ? next : value
}

/** The reading where somebody tapped on the band: the next value that stepping would reach. In: the place on its scale. */
export const readingAt = (gauge: Pick<Gauge, 'min' | 'max'>, place: number): string => {
  const step = readingStep(gauge)
  const text = asText(Math.round(place / step) * step * MILLION)
  return READING.test(text) ? text : asText(0)
}
