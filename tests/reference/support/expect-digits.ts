import { expect } from 'vitest'

/**
 * Checks a value against printed digits: it may miss them by half a unit of the last digit printed, and no more.
 * In: the value, the digits as printed (".2553", "-3.6153").
 */
export function expectDigits(actual: number | null | undefined, printed: string): void {
  const decimals = printed.split('.')[1]?.length ?? 0
  const halfUnit = 0.5 * 10 ** -decimals
  const miss = Math.abs((actual ?? Number.NaN) - Number(printed))
  expect(miss <= halfUnit * (1 + 1e-9), `${actual} against the printed ${printed}`).toBe(true)
}

/** The same for both ends of an interval, printed "low – high". */
export function expectInterval(actual: { low: number; high: number } | null | undefined, printed: string): void {
  const [low, high] = printed.split(' – ')
  expectDigits(actual?.low, low!)
  expectDigits(actual?.high, high!)
}
