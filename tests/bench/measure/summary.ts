import type { Timing } from './closed-loop.ts'

export interface Summary {
  readonly calls: number
  readonly perSecond: number
  /** Milliseconds. */
  readonly p50: number
  readonly p99: number
}

/** Puts the rounds of one contestant together. */
export function summarize(rounds: readonly Timing[]): Summary {
  const sorted = rounds.flatMap(({ latencies }) => latencies).sort((a, b) => a - b)
  const seconds = rounds.reduce((sum, round) => sum + round.seconds, 0)
  return {
    calls: sorted.length,
    perSecond: sorted.length / seconds,
    p50: quantile(sorted, 0.5),
    p99: quantile(sorted, 0.99),
  }
}

/** The nearest-rank quantile: the smallest value that at least this share of the values does not exceed. */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN
}
