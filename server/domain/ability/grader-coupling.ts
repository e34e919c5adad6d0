import { factorize, invertFactored } from './cholesky.ts'

/**
 * What the candidates' sheets say about the graders together: the information matrix of their lenience once every
 * candidate's own numbers are eliminated. Graders meet on candidates, so it is dense; there are few of them.
 */
export class GraderCoupling {
  readonly graders: number
  readonly matrix: Float64Array
  readonly gradient: Float64Array
  /** The inverse of the matrix; made by `invert`. */
  inverse: Float64Array

  constructor(graders: number) {
    this.graders = graders
    this.matrix = new Float64Array(graders * graders)
    this.gradient = new Float64Array(graders)
    this.inverse = new Float64Array(0)
  }

  /** Begins anew with what the normal distribution of lenience says by itself. */
  reset(lenience: Float64Array): void {
    this.matrix.fill(0)
    for (let j = 0; j < this.graders; j++) {
      this.matrix[j * this.graders + j] = 1
      this.gradient[j] = -lenience[j]!
    }
  }

  /** Adds a candidate's: information `between` the sheets, graded by `who`, for a lenience of `spread` a unit. */
  add(spread: number, who: ArrayLike<number>, first: number, sheets: number, between: Float64Array): void {
    for (let s = 0; s < sheets; s++) {
      const row = who[first + s]!
      if (row < 0) continue
      for (let t = 0; t < sheets; t++) {
        const column = who[first + t]!
        if (column >= 0) this.matrix[row * this.graders + column]! += spread * spread * between[s * sheets + t]!
      }
    }
  }

  /** Factors the matrix, keeps its inverse, and gives the logarithm of its determinant. */
  invert(): number {
    const factor = Float64Array.from(this.matrix)
    const logDeterminant = factorize(factor, this.graders)
    this.inverse = invertFactored(factor, this.graders)
    return logDeterminant
  }

  /** The inverse times a vector. */
  times(vector: Float64Array): Float64Array {
    const product = new Float64Array(this.graders)
    for (let i = 0; i < this.graders; i++) {
      for (let j = 0; j < this.graders; j++) product[i]! += this.inverse[i * this.graders + j]! * vector[j]!
    }
    return product
  }
}
