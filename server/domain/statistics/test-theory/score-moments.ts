import type { ResponseSums } from './response-sums.ts'

/** Variances and covariances of 0/1 items, each times the squared number of sheets: whole numbers, compared exactly. */
export type ScoreMoments = {
  /** n² times the covariance of two items, or the variance of one. */
  covariance(i: number, j: number): number
  /** n² times the variance of the sum of some items. */
  totalVariance(items: readonly number[]): number
  /** n² times the covariance of an item with the sum of some items. */
  covarianceWithSum(item: number, items: readonly number[]): number
}

/** The second moments of a complete 0/1 matrix, with divisor n (population variance), times n². */
export function scoreMoments({ sheets, together }: ResponseSums): ScoreMoments {
  const covariance = (i: number, j: number) => sheets * together[i]![j]! - together[i]![i]! * together[j]![j]!
  const covarianceWithSum = (item: number, items: readonly number[]) =>
    items.reduce((sum, other) => sum + covariance(item, other), 0)
  const totalVariance = (items: readonly number[]) =>
    items.reduce((sum, item) => sum + covarianceWithSum(item, items), 0)
  return { covariance, covarianceWithSum, totalVariance }
}
