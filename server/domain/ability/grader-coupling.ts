import type { AbilityData } from './ability-data.ts'
import { factorize, invertFactored } from './cholesky.ts'
import { type GraderBlocks, graderBlocks } from './grader-blocks.ts'

/** So many graders are looked at together without leaving anything out. */
const LARGEST_BLOCK = 256
const MOST_ROUNDS = 200
/** Of the length of what is solved for. */
const SOLVED = 1e-10

/**
 * What the candidates' sheets say about the graders together: the information matrix of their lenience once every
 * candidate's own numbers are eliminated. Graders meet on candidates, so up to `LARGEST_BLOCK` it is one dense matrix. Beyond
 * it there are dense blocks of those who meet most, and the rest sparse: systems are solved exactly with all of it, by conjugate
 * gradients; the determinant and the covariances leave the rest out. That is the determinant of the blocks and its exact slope,
 * so a fit still climbs one function; what it leaves out is of second order in what two graders of different blocks share.
 * Source: conjugate gradients with a preconditioner, J. Nocedal & S. Wright (2006), *Numerical Optimization*, 2nd ed.,
 * algorithm 5.3; leaving out weak coupling is the block Jacobi approximation, Y. Saad (2003), *Iterative Methods for Sparse
 * Linear Systems*, 2nd ed., 4.1.
 */
export class GraderCoupling {
  readonly graders: number
  readonly gradient: Float64Array
  private readonly blocks: GraderBlocks
  private readonly matrices: Float64Array[]
  private inverses: Float64Array[] = []
  /** Between blocks, by `row × graders + column` with the row below the column. */
  private readonly between = new Map<number, number>()

  constructor(data: AbilityData, hasGraders: boolean, largestBlock = LARGEST_BLOCK) {
    this.graders = hasGraders ? data.design.graders : 0
    this.gradient = new Float64Array(this.graders)
    this.blocks = hasGraders
      ? graderBlocks(data, largestBlock)
      : { blockOf: new Int32Array(0), placeIn: new Int32Array(0), sizes: [] }
    this.matrices = this.blocks.sizes.map((size) => new Float64Array(size * size))
  }

  /** Begins anew with what the normal distribution of lenience says by itself. */
  reset(lenience: Float64Array): void {
    this.between.clear()
    this.matrices.forEach((matrix, block) => {
      matrix.fill(0)
      const size = this.blocks.sizes[block]!
      for (let i = 0; i < size; i++) matrix[i * size + i] = 1
    })
    for (let j = 0; j < this.graders; j++) this.gradient[j] = -lenience[j]!
  }

  /** Adds a candidate's: information `between` the sheets, graded by `who`, for a lenience of `spread` a unit. */
  add(spread: number, who: ArrayLike<number>, first: number, sheets: number, between: Float64Array): void {
    const { blockOf, placeIn, sizes } = this.blocks
    for (let s = 0; s < sheets; s++) {
      const row = who[first + s]!
      if (row < 0) continue
      const block = blockOf[row]!
      for (let t = 0; t < sheets; t++) {
        const column = who[first + t]!
        if (column < 0) continue
        const information = spread * spread * between[s * sheets + t]!
        if (blockOf[column] === block) {
          this.matrices[block]![placeIn[row]! * sizes[block]! + placeIn[column]!]! += information
        } else if (row < column) {
          const key = row * this.graders + column
          this.between.set(key, (this.between.get(key) ?? 0) + information)
        }
      }
    }
  }

  /** Factors the blocks, keeps their inverses, and gives the logarithm of their determinant. */
  invert(): number {
    let logDeterminant = 0
    this.inverses = this.matrices.map((matrix, block) => {
      const size = this.blocks.sizes[block]!
      const factor = Float64Array.from(matrix)
      logDeterminant += factorize(factor, size)
      return invertFactored(factor, size)
    })
    return logDeterminant
  }

  /** Covariance of two graders' lenience; 0 between blocks. */
  covariance(one: number, other: number): number {
    const { blockOf, placeIn, sizes } = this.blocks
    const block = blockOf[one]!
    if (blockOf[other] !== block) return 0
    return this.inverses[block]![placeIn[one]! * sizes[block]! + placeIn[other]!]!
  }

  /** Solves the whole matrix for a vector, after `invert`. */
  solve(vector: Float64Array): Float64Array {
    const start = this.times(this.inverses, vector)
    if (this.between.size === 0) return start
    const at = start
    const rest = this.wholeTimes(at).map((x, j) => vector[j]! - x)
    let near = this.times(this.inverses, rest)
    const direction = Float64Array.from(near)
    let length = dot(rest, near)
    const enough = SOLVED ** 2 * dot(vector, start)
    for (let round = 0; round < MOST_ROUNDS && length > enough; round++) {
      const moved = this.wholeTimes(direction)
      const step = length / dot(direction, moved)
      for (let j = 0; j < at.length; j++) {
        at[j]! += step * direction[j]!
        rest[j]! -= step * moved[j]!
      }
      near = this.times(this.inverses, rest)
      const next = dot(rest, near)
      for (let j = 0; j < at.length; j++) direction[j] = near[j]! + (next / length) * direction[j]!
      length = next
    }
    return at
  }

  private wholeTimes(vector: Float64Array): Float64Array {
    const product = this.times(this.matrices, vector)
    for (const [key, information] of this.between) {
      const [row, column] = [Math.floor(key / this.graders), key % this.graders]
      product[row]! += information * vector[column]!
      product[column]! += information * vector[row]!
    }
    return product
  }

  private times(matrices: readonly Float64Array[], vector: Float64Array): Float64Array {
    const { blockOf, placeIn, sizes } = this.blocks
    const parts = sizes.map((size) => new Float64Array(size))
    for (let j = 0; j < this.graders; j++) parts[blockOf[j]!]![placeIn[j]!] = vector[j]!
    const products = matrices.map((matrix, block) => {
      const size = sizes[block]!
      const part = parts[block]!
      return part.map((_, i) => {
        let sum = 0
        for (let k = 0; k < size; k++) sum += matrix[i * size + k]! * part[k]!
        return sum
      })
    })
    return Float64Array.from({ length: this.graders }, (_, j) => products[blockOf[j]!]![placeIn[j]!]!)
  }
}

function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0
  for (let i = 0; i < x.length; i++) sum += x[i]! * y[i]!
  return sum
}
