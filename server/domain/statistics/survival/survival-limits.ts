import type { Interval } from '../interval.ts'

/** How the interval of a survival curve is made symmetric: on ln S, or on ln(−ln S). */
export type Transformation = 'log' | 'log-log'

/**
 * The interval of a survival probability S from Greenwood's sum G (the variance of ln S).
 *
 * "log": S e^(±z √G), at most 1. "log-log": S^exp(±z √G / ln S), which stays inside (0, 1) by itself.
 * Source: J. D. Kalbfleisch & R. L. Prentice (2002), *The Statistical Analysis of Failure Time Data*, 2nd ed., 1.4.
 * In: S in (0, 1], G ≥ 0, z. Out: null at S = 0, where G is infinite; [1, 1] at S = 1, where nothing has happened yet.
 */
export function survivalLimits(
  survival: number,
  greenwood: number,
  z: number,
  transformation: Transformation,
): Interval | null {
  if (survival === 0) return null
  if (greenwood === 0) return { low: survival, high: survival }
  const reach = z * Math.sqrt(greenwood)
  if (transformation === 'log')
    return { low: survival * Math.exp(-reach), high: Math.min(1, survival * Math.exp(reach)) }
  const power = Math.exp(reach / Math.log(survival))
  return { low: survival ** (1 / power), high: survival ** power }
}
