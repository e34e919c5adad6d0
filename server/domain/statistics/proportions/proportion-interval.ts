/**
 * A proportion with its confidence interval, or that there is nothing to take one from. `rate`, `low` and `high` lie
 * in [0, 1]; `level` is the confidence level. Without data there is no interval: 0 to 1 would look like a finding.
 */
export type ProportionInterval =
  | { kind: 'no-data' }
  | { kind: 'interval'; rate: number; low: number; high: number; level: number }
