import { toMillionths } from './decimal.ts'

/**
 * How many minor measures must be GO: the least whole m with 100·m ≥ percent·measures.
 * Integers only, since floating point asks 8 instead of 7 for 28 percent of 25.
 * In: percent as decimal text ("80", "66.7"), number of minor measures in the standard. Out: measures.
 */
export function minimumGo(percent: string, measures: number): number {
  const part = BigInt(toMillionths(percent)) * BigInt(measures)
  const whole = BigInt(100 * 1_000_000)
  return Number((part + whole - 1n) / whole)
}
