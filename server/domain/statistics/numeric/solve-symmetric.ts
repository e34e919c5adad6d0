/**
 * The solution x of A x = b for a symmetric positive definite A, by Cholesky's decomposition A = L Lᵀ.
 *
 * In: a square matrix (its lower half is read), a vector of the same size. Out: x, or null where A is not positive
 * definite beyond rounding (a pivot of less than 1e-12 of its diagonal).
 */
export function solveSymmetric(matrix: readonly (readonly number[])[], vector: readonly number[]): number[] | null {
  const size = vector.length
  const lower = matrix.map(() => new Array<number>(size).fill(0))
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let rest = matrix[i]![j]!
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!
      if (i === j && !(rest > 1e-12 * Math.abs(matrix[j]![j]!))) return null
      lower[i]![j] = i === j ? Math.sqrt(rest) : rest / lower[j]![j]!
    }
  }
  const x = [...vector]
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i]![k]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) x[i]! -= lower[k]![i]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  return x
}
