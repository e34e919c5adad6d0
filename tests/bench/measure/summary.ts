import type { Timing } from './closed-loop.ts'

export interface Round extends Timing {
  readonly cpuSeconds: number | null
}

export interface Summary {
  readonly calls: number
  readonly perSecond: number
  /** Milliseconds. */
  readonly p50: number
  readonly p99: number
  /** Milliseconds of processor time a call; null where the system does not tell. */
  readonly cpu: number | null
}

/** Puts the rounds of one contestant together. */
export function summarize(rounds: readonly Round[]): Summary {
  const sorted = rounds.flatMap(({ latencies }) => latencies).sort((a, b) => a - b)
  const total = (of: (round: Round) => number) => rounds.reduce((sum, round) => sum + of(round), 0)
  const isTold = rounds.every(({ cpuSeconds }) => cpuSeconds !== null)
  return {
    calls: sorted.length,
    perSecond: sorted.length / total(({ seconds }) => seconds),
    p50: quantile(sorted, 0.5),
    p99: quantile(sorted, 0.99),
    cpu: isTold ? (1000 * total(({ cpuSeconds }) => cpuSeconds ?? 0)) / sorted.length : null,
  }
}

/** The nearest-rank quantile: the smallest value that at least this share of the values does not exceed. */
export function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN
}
