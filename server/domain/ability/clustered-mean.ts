/** An estimate with its 95 % limits; no limits where there are too few clusters to say. */
export interface Estimate {
  readonly value: number
  readonly low: number | null
  readonly high: number | null
}

const Z = 1.959963984540054

/** Limits of an estimate by its standard error. */
export const withLimits = (value: number, error: number | null): Estimate => ({
  value,
  low: error === null ? null : value - Z * error,
  high: error === null ? null : value + Z * error,
})

/**
 * The mean of values that come in clusters, with the limits that this allows: the variance is the sum of squares of the
 * clusters' residual sums, over n², times g/(g − 1) for g clusters.
 * Source: K.-Y. Liang & S. L. Zeger (1986), *Biometrika* 73:13–22, for a mean.
 * In: at least one value.
 */
export function clusteredMean(values: readonly { readonly cluster: string; readonly value: number }[]): Estimate {
  const n = values.length
  const mean = values.reduce((sum, { value }) => sum + value, 0) / n
  const sums = new Map<string, number>()
  for (const { cluster, value } of values) sums.set(cluster, (sums.get(cluster) ?? 0) + value - mean)
  const clusters = sums.size
  if (clusters < 2) return withLimits(mean, null)
  const squares = [...sums.values()].reduce((sum, each) => sum + each * each, 0)
  return withLimits(mean, Math.sqrt((squares * clusters) / (clusters - 1)) / n)
}
