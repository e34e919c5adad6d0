import { solveFactored } from './cholesky.ts'
import { type ModeFinder, sheetCovariance } from './find-modes.ts'
import type { Modes, Parameters, Spread } from './parameters.ts'

/** Slope of the marginal log-likelihood by the parameters; by spreads in their logarithm. */
export interface LogitSlope {
  readonly ease: Float64Array
  readonly gains: Float64Array
  readonly spread: { candidate: number; measure: number; sheet: number; grader: number }
}

/**
 * The slope at the modes. With r and w the first two derivatives of a trial's log-likelihood by its logit, w′ the slope of
 * w, v the variance of the logit given the data, f = w′v, α = H⁻¹Jᵀf and p = Jα, what a logit holds directly counts
 * r − ½ (f − w p); the logarithm of a spread counts Σ b̂² − Σ (1 − var b) − ½ Σ α b̂ over what differs by it, and −½ (f − w p)
 * times its part of the logits.
 */
export class LogitSlopes {
  private readonly finder: ModeFinder
  private readonly f: Float64Array
  private readonly posterior: Float64Array
  private readonly between: Float64Array
  private readonly slotPull: Float64Array
  private readonly sheetPull: Float64Array

  constructor(finder: ModeFinder) {
    this.finder = finder
    const { data, information, slotInformation } = finder.block
    this.f = new Float64Array(data.measure.length)
    this.posterior = new Float64Array(information.length)
    this.between = new Float64Array(information.length)
    this.slotPull = new Float64Array(slotInformation.length)
    this.sheetPull = new Float64Array(Math.ceil(Math.sqrt(information.length)))
  }

  /** @param modes at their peak, as the finder left them */
  at(parameters: Parameters, modes: Modes): LogitSlope {
    const { block, hasGraders, coupling } = this.finder
    const { data } = block
    const slope = {
      ease: new Float64Array(data.design.strengthOf.length),
      gains: new Float64Array(data.design.gains),
      spread: { candidate: 0, measure: 0, sheet: 0, grader: 0 },
    }
    const onGraders = new Float64Array(coupling.graders)
    this.forEach(parameters, modes, (candidate) => {
      this.pull(parameters.spread, onGraders, slope)
      if (!hasGraders) this.count(candidate, parameters.spread, modes, onGraders, slope)
    })
    if (!hasGraders) return slope
    const alpha = coupling.solve(onGraders)
    this.forEach(parameters, modes, (candidate) => this.count(candidate, parameters.spread, modes, alpha, slope))
    for (let j = 0; j < coupling.graders; j++) {
      const lenience = modes.grader[j]!
      slope.spread.grader += lenience ** 2 - (1 - coupling.covariance(j, j)) - 0.5 * alpha[j]! * lenience
    }
    return slope
  }

  private forEach(parameters: Parameters, modes: Modes, work: (candidate: number) => void): void {
    const { block } = this.finder
    const { sheetStart, design } = block.data
    for (let candidate = 0; candidate < design.candidates; candidate++) {
      if (sheetStart[candidate] === sheetStart[candidate + 1]) continue
      block.linearise(candidate, parameters, modes)
      block.factor(parameters)
      work(candidate)
    }
  }

  /** f of each cell, what it asks of the graders, and the variances. */
  private pull(spread: Spread, onGraders: Float64Array, slope: LogitSlope): void {
    const { finder, posterior } = this
    const { block, hasGraders } = finder
    const { sheets } = block
    const inverse = sheetCovariance(block, spread, finder.covariance)
    for (let i = 0; i < sheets * sheets; i++) posterior[i] = finder.covariance[i]!
    for (let i = 0; i <= sheets; i++) {
      slope.spread[i === 0 ? 'candidate' : 'sheet'] -= 1 - inverse[i * (sheets + 1) + i]!
    }
    if (hasGraders) this.addGraderVariance(spread, inverse, slope)
    slope.spread.measure -= this.fill(spread)
    if (!hasGraders) return
    const reduced = this.reducePull(spread)
    for (let s = 0; s < sheets; s++) {
      const who = block.data.grader[block.firstSheet + s]!
      if (who < 0) continue
      let carried = reduced[s]!
      for (let t = 0; t < sheets; t++) {
        for (let u = 0; u < sheets; u++) {
          carried -= block.information[s * sheets + t]! * finder.covariance[t * sheets + u]! * reduced[u]!
        }
      }
      onGraders[who]! += spread.grader * carried
    }
  }

  /** The graders' own uncertainty in a candidate's sheets: N T Nᵀ ω² with N = I − F M and T theirs of these sheets. */
  private addGraderVariance(spread: Spread, inverse: Float64Array, slope: LogitSlope): void {
    const { finder, posterior, between } = this
    const { block, coupling, covariance } = finder
    const { sheets, information, firstSheet } = block
    for (let s = 0; s < sheets; s++) {
      for (let t = 0; t < sheets; t++) {
        const [a, b] = [block.data.grader[firstSheet + s]!, block.data.grader[firstSheet + t]!]
        between[s * sheets + t] = a < 0 || b < 0 ? 0 : spread.grader ** 2 * coupling.covariance(a, b)
      }
    }
    const through = new Float64Array(sheets * sheets)
    for (let s = 0; s < sheets; s++) {
      for (let t = 0; t < sheets; t++) {
        let sum = s === t ? 1 : 0
        for (let u = 0; u < sheets; u++) sum -= covariance[s * sheets + u]! * information[u * sheets + t]!
        through[s * sheets + t] = sum
      }
    }
    for (let s = 0; s < sheets; s++) {
      for (let t = 0; t < sheets; t++) {
        posterior[s * sheets + t]! += quadratic(through, s * sheets, through, t * sheets, between, sheets)
      }
    }
    const carried = new Float64Array(sheets)
    for (let i = 0; i <= sheets; i++) {
      for (let t = 0; t < sheets; t++) {
        let sum = 0
        for (let u = 0; u < sheets; u++) {
          const b = spread.candidate * inverse[i * (sheets + 1)]! + spread.sheet * inverse[i * (sheets + 1) + u + 1]!
          sum += b * information[u * sheets + t]!
        }
        carried[t] = sum
      }
      slope.spread[i === 0 ? 'candidate' : 'sheet'] += quadratic(carried, 0, carried, 0, between, sheets)
    }
  }

  /** Fills `f`; out: Σ (1 − variance) of the strengths. */
  private fill(spread: Spread): number {
    const { finder, posterior, f, slotPull } = this
    const { block } = finder
    const { sheets, slots, weight, slotInformation, data, firstSheet, chance } = block
    const square = spread.measure ** 2
    let explained = 0
    const spreadOf = new Float64Array(slots * sheets)
    for (let d = 0; d < slots; d++) {
      const D = slotInformation[d]!
      let own = 0
      for (let s = 0; s < sheets; s++) {
        let sum = 0
        for (let t = 0; t < sheets; t++) sum += posterior[s * sheets + t]! * weight[t * slots + d]!
        spreadOf[d * sheets + s] = sum
        own += sum * weight[s * slots + d]!
      }
      slotPull[d] = own
      explained += 1 - 1 / D - (square * own) / (D * D)
    }
    for (let s = 0; s < sheets; s++) {
      for (let cell = data.cellStart[firstSheet + s]!; cell < data.cellStart[firstSheet + s + 1]!; cell++) {
        const d = data.slot[cell]!
        const h = square / slotInformation[d]!
        const variance = posterior[s * sheets + s]! - 2 * h * spreadOf[d * sheets + s]! + h * h * slotPull[d]! + h
        const p = chance[cell]!
        f[cell] = data.tried[cell]! * p * (1 - p) * (1 - 2 * p) * variance
      }
    }
    return explained
  }

  /** The sheets' sums of f once the strengths are eliminated. Fills `slotPull` with those of the strengths. */
  private reducePull(spread: Spread): Float64Array {
    const { f, slotPull, sheetPull } = this
    const { sheets, slots, weight, slotInformation, data, firstSheet } = this.finder.block
    slotPull.fill(0, 0, slots)
    for (let s = 0; s < sheets; s++) {
      sheetPull[s] = 0
      for (let cell = data.cellStart[firstSheet + s]!; cell < data.cellStart[firstSheet + s + 1]!; cell++) {
        sheetPull[s]! += f[cell]!
        slotPull[data.slot[cell]!]! += spread.measure * f[cell]!
      }
    }
    for (let s = 0; s < sheets; s++) {
      for (let d = 0; d < slots; d++) {
        sheetPull[s]! -= (spread.measure * weight[s * slots + d]! * slotPull[d]!) / slotInformation[d]!
      }
    }
    return sheetPull
  }

  /** Second pass: α of the candidate, given the graders' `alpha`, and with it the slope. */
  private count(candidate: number, spread: Spread, modes: Modes, alpha: Float64Array, slope: LogitSlope): void {
    const { block, hasGraders } = this.finder
    const { sheets, slots, information, data, firstSheet, firstSlot } = block
    const reduced = this.reducePull(spread)
    const fromGrader = new Float64Array(sheets)
    for (let s = 0; s < sheets && hasGraders; s++) {
      const who = data.grader[firstSheet + s]!
      if (who >= 0) fromGrader[s] = spread.grader * alpha[who]!
    }
    const core = new Float64Array(sheets + 1)
    for (let s = 0; s < sheets; s++) {
      let rest = reduced[s]!
      for (let t = 0; t < sheets; t++) rest -= information[s * sheets + t]! * fromGrader[t]!
      core[0]! += spread.candidate * rest
      core[s + 1] = spread.sheet * rest
    }
    solveFactored(block.core, sheets + 1, core)
    const shift = Float64Array.from(
      fromGrader,
      (lenience, s) => lenience + spread.candidate * core[0]! + spread.sheet * core[s + 1]!,
    )
    slope.spread.candidate += modes.candidate[candidate]! ** 2 - 0.5 * core[0]! * modes.candidate[candidate]!
    for (let s = 0; s < sheets; s++) {
      const form = modes.sheet[firstSheet + s]!
      slope.spread.sheet += form ** 2 - 0.5 * core[s + 1]! * form
    }
    const { slotPull } = this
    for (let d = 0; d < slots; d++) {
      let rest = slotPull[d]!
      for (let s = 0; s < sheets; s++) rest -= spread.measure * block.weight[s * slots + d]! * shift[s]!
      const strength = modes.measure[firstSlot + d]!
      slotPull[d] = rest / block.slotInformation[d]!
      slope.spread.measure += strength ** 2 - 0.5 * slotPull[d]! * strength
    }
    this.countCells(candidate, spread, modes, shift, slope)
  }

  private countCells(candidate: number, spread: Spread, modes: Modes, shift: Float64Array, slope: LogitSlope): void {
    const { f, slotPull } = this
    const { data, firstSheet, firstSlot, sheets, chance } = this.finder.block
    const { gains } = data.design
    for (let s = 0; s < sheets; s++) {
      const sheet = firstSheet + s
      const who = data.grader[sheet]!
      let [all, curved] = [0, 0]
      for (let cell = data.cellStart[sheet]!; cell < data.cellStart[sheet + 1]!; cell++) {
        const [p, n, d] = [chance[cell]!, data.tried[cell]!, data.slot[cell]!]
        const half = 0.5 * (f[cell]! - n * p * (1 - p) * (shift[s]! + spread.measure * slotPull[d]!))
        const whole = data.correct[cell]! - n * p - half
        slope.ease[data.measure[cell]!]! += whole
        slope.spread.measure -= half * spread.measure * modes.measure[firstSlot + d]!
        all += whole
        curved += half
      }
      for (let k = 0; k < gains; k++) slope.gains[k]! += all * data.gain[sheet * gains + k]!
      slope.spread.candidate -= curved * spread.candidate * modes.candidate[candidate]!
      slope.spread.sheet -= curved * spread.sheet * modes.sheet[sheet]!
      if (who >= 0) slope.spread.grader -= curved * spread.grader * modes.grader[who]!
    }
  }
}

/** x C yᵀ of two rows and a square matrix. */
function quadratic(
  x: Float64Array,
  xAt: number,
  y: Float64Array,
  yAt: number,
  matrix: Float64Array,
  size: number,
): number {
  let sum = 0
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) sum += x[xAt + i]! * matrix[i * size + j]! * y[yAt + j]!
  }
  return sum
}
