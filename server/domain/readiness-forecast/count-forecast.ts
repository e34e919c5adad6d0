import { poissonBinomial } from '../statistics/expectation/poisson-binomial.ts'

/** How many of some soldiers will be certified. */
interface CountForecast {
  readonly required: number
  readonly expected: number
  /** With `high`: the narrowest limits with at most a tenth of the chance below and at most a tenth above. */
  readonly low: number
  readonly high: number
  /** The chance of at least n, for n from 0 to all of them. */
  readonly atLeast: readonly number[]
}

/** Of the chance, so much may lie below the interval, and as much above. */
const TAIL = 0.1

/**
 * The distribution of how many are certified, from the chance of each, soldiers taken as independent: exactly, by the
 * Poisson-binomial. Those whose chance is 0 or 1 cost nothing.
 */
export function countForecast(chances: readonly number[]): CountForecast {
  const certain = chances.filter((chance) => chance >= 1).length
  const open = chances.filter((chance) => chance > 0 && chance < 1)
  const distribution = poissonBinomial(open)
  const required = chances.length
  const atLeast = new Array<number>(required + 1).fill(0)
  atLeast.fill(1, 0, certain + 1)
  let above = 0
  for (let k = open.length; k > 0; k--) {
    above += distribution[k]!
    atLeast[certain + k] = Math.min(1, above)
  }
  const chanceOf = (n: number) => atLeast[n] ?? 0
  let low = certain
  while (1 - chanceOf(low + 1) <= TAIL) low += 1
  let high = certain + open.length
  while (high > 0 && chanceOf(high) <= TAIL) high -= 1
  return { required, expected: certain + open.reduce((sum, chance) => sum + chance, 0), low, high, atLeast }
}
