/**
 * Cholesky's factor of a symmetric positive definite matrix, in place: A = L Lᵀ.
 * In: the matrix by rows (its lower half is read and becomes L), its size. Out: the logarithm of its determinant.
 * @throws RangeError where it is not positive definite
 */
export function factorize(matrix: Float64Array, size: number): number {
  let logDeterminant = 0
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let rest = matrix[i * size + j]!
      for (let k = 0; k < j; k++) rest -= matrix[i * size + k]! * matrix[j * size + k]!
      if (i > j) {
        matrix[i * size + j] = rest / matrix[j * size + j]!
        continue
      }
      if (!(rest > 0)) throw new RangeError('factorize: not positive definite')
      matrix[j * size + j] = Math.sqrt(rest)
      logDeterminant += Math.log(rest)
    }
  }
  return logDeterminant
}

/** Solves A x = b by A's factor, in place of b, which is read from `at` on. */
export function solveFactored(factor: Float64Array, size: number, b: Float64Array, at = 0): void {
  for (let i = 0; i < size; i++) {
    let rest = b[at + i]!
    for (let k = 0; k < i; k++) rest -= factor[i * size + k]! * b[at + k]!
    b[at + i] = rest / factor[i * size + i]!
  }
  for (let i = size - 1; i >= 0; i--) {
    let rest = b[at + i]!
    for (let k = i + 1; k < size; k++) rest -= factor[k * size + i]! * b[at + k]!
    b[at + i] = rest / factor[i * size + i]!
  }
}

/** A⁻¹ by rows, of A's factor. */
export function invertFactored(factor: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size)
  for (let j = 0; j < size; j++) {
    inverse[j * size + j] = 1
    solveFactored(factor, size, inverse, j * size)
  }
  return inverse
}
