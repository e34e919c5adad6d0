import type { Interval } from '../interval.ts'
import { normalQuantile } from '../numeric/normal-quantile.ts'
import { FALSE_SHARE, type JudgedCoaching } from './judge-coaching.ts'

export interface CoachingFunnel {
  /** Sponsors of whom it is asked whether they differ. */
  readonly asked: number
  readonly mostAttempts: number
  readonly lines: { attempts: number; usual: Interval; called: Interval }[]
}

/** Enough points for smooth lines. */
const LINES = 60
const USUAL = 0.025

/**
 * Limits around the common rate by number of attempts, for passes less those expected. Candidates are random effects: the
 * variance of a pass is what the sponsors' own distributions have on average, so clusters widen the limits. `usual` holds
 * 95 %; outside `called` the p-value is below that of the last one called different (or below what the first would need).
 * Source: D. J. Spiegelhalter (2005), *Statistics in Medicine* 24:1185–1202 (funnel of indirectly standardised rates with
 * variance inflated by random effects); normal limits, so that a verdict, which is exact, can differ at few attempts.
 */
export function coachingFunnel(judged: readonly JudgedCoaching[]): CoachingFunnel {
  const attempts = judged.reduce((sum, one) => sum + one.attempts, 0)
  const passes = judged.reduce((sum, one) => sum + one.passes, 0)
  const variance = judged.reduce((sum, { sd }) => sum + sd ** 2, 0) / attempts
  const asked = judged.filter(({ differs }) => differs !== 'few').length
  const called = judged.filter(({ differs }) => differs === 'above' || differs === 'below').length
  const mostAttempts = judged.reduce((most, one) => Math.max(most, one.attempts), 0)
  if (asked === 0) return { asked, mostAttempts, lines: [] }
  const tail = (FALSE_SHARE * Math.max(1, called)) / asked / 2
  const lines = steps(mostAttempts).map((n) => ({
    attempts: n,
    usual: around(passes / attempts, variance / n, USUAL),
    called: around(passes / attempts, variance / n, tail),
  }))
  return { asked, mostAttempts, lines }
}

function around(rate: number, variance: number, tail: number): Interval {
  const reach = normalQuantile(1 - tail) * Math.sqrt(variance)
  return { low: Math.max(0, rate - reach), high: Math.min(1, rate + reach) }
}

/** Every number of attempts to the most, or as many of them evenly spaced by ratio as make a smooth line. */
function steps(most: number): number[] {
  if (most <= LINES) return Array.from({ length: most }, (_, i) => i + 1)
  const ratio = most ** (1 / (LINES - 1))
  return [...new Set(Array.from({ length: LINES }, (_, i) => Math.round(ratio ** i)))]
}
