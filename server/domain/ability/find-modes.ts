import type { AbilityData } from './ability-data.ts'
import { CandidateBlock } from './candidate-block.ts'
import { invertFactored } from './cholesky.ts'
import { GraderCoupling } from './grader-coupling.ts'
import type { Modes, Parameters, Spread } from './parameters.ts'

const DECREMENT = 1e-9
/** Each candidate's peak is found to a small part of the log-density, so that of very many is known no better than this times as many. */
const DECREMENT_A_CANDIDATE = 2e-10
const VERY_MANY = 1_000
const MOST_STEPS = 40

/** Modes at their means, where a search begins. */
export function startModes({ design, sheetStart, slotStart }: AbilityData): Modes {
  return {
    candidate: new Float64Array(design.candidates),
    measure: new Float64Array(slotStart[design.candidates]!),
    sheet: new Float64Array(sheetStart[design.candidates]!),
    grader: new Float64Array(design.graders),
  }
}

/** What is found with the modes. */
export interface Peak {
  /** Log-density of the trials and the modes, without the normal distributions' and the binomials' constants. */
  readonly value: number
  /** Logarithm of the determinant of the information at the modes. */
  readonly logDeterminant: number
}

/** The most likely values of all that differs at random, for given parameters, and the curvature there. */
export class ModeFinder {
  readonly block: CandidateBlock
  readonly coupling: GraderCoupling
  /** BA⁻¹Bᵀ of the candidate last looked at by `reduce`: the sheets' covariance without strengths and graders. */
  readonly covariance: Float64Array
  private readonly reduced: Float64Array
  private readonly product: Float64Array
  readonly hasGraders: boolean

  constructor(data: AbilityData, hasGraders: boolean, largestBlock?: number) {
    this.block = new CandidateBlock(data)
    this.hasGraders = hasGraders
    this.coupling = new GraderCoupling(data, hasGraders, largestBlock)
    const most = this.block.information.length
    this.covariance = new Float64Array(most)
    this.reduced = new Float64Array(most)
    this.product = new Float64Array(most)
  }

  /**
   * Moves `modes` to their joint peak. Candidates are independent given the graders, so each step finds every candidate's
   * peak and moves all graders by Newton's method on what is left.
   */
  find(parameters: Parameters, modes: Modes): Peak {
    const { candidates } = this.block.data.design
    const enough = candidates > VERY_MANY ? DECREMENT_A_CANDIDATE * candidates : DECREMENT
    for (let steps = 0; ; steps++) {
      const peak = this.settleCandidates(parameters, modes)
      if (!this.hasGraders) return peak
      const logDeterminant = peak.logDeterminant + this.coupling.invert()
      const move = this.coupling.solve(this.coupling.gradient)
      const decrement = this.coupling.gradient.reduce((sum, g, j) => sum + g * move[j]!, 0)
      if (decrement < enough || steps === MOST_STEPS) return { value: peak.value, logDeterminant }
      for (let j = 0; j < move.length; j++) modes.grader[j]! += move[j]!
    }
  }

  private settleCandidates(parameters: Parameters, modes: Modes): Peak {
    const { block, coupling } = this
    const { data } = block
    const spread = parameters.spread
    let [value, logDeterminant] = [0, 0]
    if (this.hasGraders) {
      coupling.reset(modes.grader)
      for (const lenience of modes.grader) value -= 0.5 * lenience * lenience
    }
    for (let candidate = 0; candidate < data.design.candidates; candidate++) {
      if (data.sheetStart[candidate] === data.sheetStart[candidate + 1]) {
        modes.candidate[candidate] = 0
        continue
      }
      value += block.settle(candidate, parameters, modes)
      logDeterminant += block.logDeterminant
      if (this.hasGraders) this.notifyGraders(spread)
    }
    return { value, logDeterminant }
  }

  private notifyGraders(spread: Spread): void {
    const { block, coupling } = this
    const { grader } = block.data
    const { firstSheet, sheets } = block
    const gradient = block.reduceGradient(spread)
    for (let s = 0; s < sheets; s++) {
      const who = grader[firstSheet + s]!
      if (who >= 0) coupling.gradient[who]! += spread.grader * gradient[s]!
    }
    coupling.add(spread.grader, grader, firstSheet, sheets, this.reduce(spread))
  }

  /** M − M F M with F = BA⁻¹Bᵀ: what the candidate's sheets say of what their graders add. Fills `covariance` with F. */
  reduce(spread: Spread): Float64Array {
    const { block, covariance, reduced, product } = this
    const { sheets, information } = block
    sheetCovariance(block, spread, covariance)
    multiply(covariance, information, product, sheets)
    multiply(information, product, reduced, sheets)
    for (let i = 0; i < sheets * sheets; i++) reduced[i] = information[i]! - reduced[i]!
    return reduced
  }
}

/** F = BA⁻¹Bᵀ into `out`; of the block's factor. */
export function sheetCovariance({ core, sheets }: CandidateBlock, spread: Spread, out: Float64Array): Float64Array {
  const size = sheets + 1
  const inverse = invertFactored(core, size)
  const { candidate, sheet } = spread
  for (let s = 0; s < sheets; s++) {
    for (let t = 0; t < sheets; t++) {
      out[s * sheets + t] =
        candidate * candidate * inverse[0]! +
        candidate * sheet * (inverse[s + 1]! + inverse[t + 1]!) +
        sheet * sheet * inverse[(s + 1) * size + t + 1]!
    }
  }
  return inverse
}

/** The product of two square matrices into `out`. */
export function multiply(a: Float64Array, b: Float64Array, out: Float64Array, size: number): void {
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      let sum = 0
      for (let k = 0; k < size; k++) sum += a[i * size + k]! * b[k * size + j]!
      out[i * size + j] = sum
    }
  }
}
