import { toMillionths } from './decimal.ts'
import type { Gauge } from './types.ts'

/**
 * Where a reading lies against its gauge's closed band; a missing limit is no limit. Compared as decimals: 6.0 is
 * inside a maximum of 6, 6.01 is high.
 */
export function placeInBand(gauge: Gauge, value: string): 'low' | 'inside' | 'high' {
  const reading = toMillionths(value)
  if (gauge.min != null && reading < toMillionths(gauge.min)) return 'low'
  if (gauge.max != null && reading > toMillionths(gauge.max)) return 'high'
  return 'inside'
}
