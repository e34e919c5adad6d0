import type { AbilityData } from './ability-data.ts'
import { factorize, solveFactored } from './cholesky.ts'
import type { Modes, Parameters } from './parameters.ts'

/** A candidate's part of the joint log-density is never worse than this short of its peak when it counts as found. */
const DECREMENT = 1e-10
const MOST_STEPS = 60

/**
 * The second-order picture of one candidate at a point, for given severities: ability, form of each day and strength in
 * each measure are a dozen or two numbers that no other candidate shares.
 *
 * Strengths enter one by one given the rest, so they are eliminated first (D, diagonal); what is left of the trials'
 * information is M between the sheets, and the core, ability with the forms, has the matrix A = I + Bᵀ M B with
 * B = [σ1, κI]. In standard deviations everywhere, so that a spread of 0 needs no special case.
 * Source: D. Bates et al. (2015), *J. Stat. Software* 67(1), 3.1 (the spherical random effects); the elimination is
 * Schur's complement.
 */
export class CandidateBlock {
  readonly data: AbilityData
  /** Sheets and strengths of the candidate, and where they start. */
  sheets = 0
  slots = 0
  firstSheet = 0
  firstSlot = 0
  /** Of D and A where `settle` ended. */
  logDeterminant = 0
  /** Chance of a correct trial by cell, of all candidates as they were last looked at. */
  readonly chance: Float64Array
  /** Information of the trials by sheet and slot. */
  readonly weight: Float64Array
  /** D: by slot. */
  readonly slotInformation: Float64Array
  /** M: sheets by sheets. */
  readonly information: Float64Array
  /** A's factor: (1 + sheets) squared. */
  readonly core: Float64Array
  private readonly slotGradient: Float64Array
  private readonly sheetGradient: Float64Array
  private readonly step: Float64Array
  private readonly gradient: Float64Array
  private readonly slotStep: Float64Array
  private readonly shift: Float64Array

  constructor(data: AbilityData) {
    this.data = data
    const [sheets, slots] = [longest(data.sheetStart), longest(data.slotStart)]
    this.chance = new Float64Array(data.measure.length)
    this.weight = new Float64Array(sheets * slots)
    this.slotInformation = new Float64Array(slots)
    this.information = new Float64Array(sheets * sheets)
    this.core = new Float64Array((sheets + 1) ** 2)
    this.slotGradient = new Float64Array(slots)
    this.sheetGradient = new Float64Array(sheets)
    this.step = new Float64Array(sheets + 1)
    this.gradient = new Float64Array(sheets + 1)
    this.slotStep = new Float64Array(slots)
    this.shift = new Float64Array(sheets)
  }

  /** Moves the candidate's modes to where they are most likely, by Newton's method. Out: the log-density there. */
  settle(candidate: number, parameters: Parameters, modes: Modes): number {
    let value = this.linearise(candidate, parameters, modes)
    for (let steps = 0; steps < MOST_STEPS; steps++) {
      this.logDeterminant = this.factor(parameters)
      const decrement = this.newtonStep(parameters, modes, candidate)
      if (decrement < DECREMENT) break
      value = this.move(candidate, parameters, modes, value)
    }
    return value
  }

  /** Reads chances and information at the modes. Out: the log-density of trials and modes, without constants. */
  linearise(candidate: number, { ease, gains, spread }: Parameters, modes: Modes): number {
    const { data, weight, slotGradient, slotInformation } = this
    this.firstSheet = data.sheetStart[candidate]!
    this.sheets = data.sheetStart[candidate + 1]! - this.firstSheet
    this.firstSlot = data.slotStart[candidate]!
    this.slots = data.slotStart[candidate + 1]! - this.firstSlot
    const { sheets, slots, firstSheet, firstSlot } = this
    weight.fill(0, 0, sheets * slots)
    slotGradient.fill(0, 0, slots)
    const ability = modes.candidate[candidate]!
    let value = -0.5 * ability * ability
    for (let s = 0; s < sheets; s++) {
      const sheet = firstSheet + s
      const base = sheetShift(data, sheet, gains, spread, modes) + spread.candidate * ability
      value += this.linearizeSheet(s, base, ease, spread.measure, modes.measure)
      value -= 0.5 * modes.sheet[sheet]! ** 2
    }
    for (let d = 0; d < slots; d++) {
      let information = 0
      for (let s = 0; s < sheets; s++) information += weight[s * slots + d]!
      slotInformation[d] = 1 + spread.measure ** 2 * information
      slotGradient[d] = spread.measure * slotGradient[d]! - modes.measure[firstSlot + d]!
      value -= 0.5 * modes.measure[firstSlot + d]! ** 2
    }
    return value
  }

  private linearizeSheet(
    s: number,
    base: number,
    ease: ArrayLike<number>,
    spreadOfMeasure: number,
    strengths: Float64Array,
  ): number {
    const { chance, weight, slotGradient, slots, firstSlot } = this
    const { measure, slot: slotOf, tried, correct, cellStart } = this.data
    const end = cellStart[this.firstSheet + s + 1]!
    const row = s * slots
    let [value, gradient, product] = [0, 0, 1]
    for (let cell = cellStart[this.firstSheet + s]!; cell < end; cell++) {
      const slot = slotOf[cell]!
      const logit = ease[measure[cell]!]! + base + spreadOfMeasure * strengths[firstSlot + slot]!
      const small = Math.exp(logit >= 0 ? -logit : logit)
      const p = logit >= 0 ? 1 / (1 + small) : small / (1 + small)
      const n = tried[cell]!
      chance[cell] = p
      value += correct[cell]! * logit
      if (logit > 0) value -= n * logit
      // One logarithm for many factors, as far as their product stays a number.
      for (let k = 0; k < n; k++) product *= 1 + small
      if (product > 1e100) {
        value -= Math.log(product)
        product = 1
      }
      const rest = correct[cell]! - n * p
      gradient += rest
      slotGradient[slot] = slotGradient[slot]! + rest
      weight[row + slot] = weight[row + slot]! + n * p * (1 - p)
    }
    this.sheetGradient[s] = gradient
    return value - Math.log(product)
  }

  /** Makes M and the factor of A of what `linearise` read. Out: the logarithm of the determinants of D and A. */
  factor({ spread }: Parameters): number {
    const { sheets, slots, weight, slotInformation, information, core } = this
    let product = 1
    let logDeterminant = 0
    for (let d = 0; d < slots; d++) {
      product *= slotInformation[d]!
      if (product < 1e100) continue
      logDeterminant += Math.log(product)
      product = 1
    }
    logDeterminant += Math.log(product)
    const square = spread.measure ** 2
    const size = sheets + 1
    core.fill(0, 0, size * size)
    core[0] = 1
    for (let s = 0; s < sheets; s++) {
      for (let t = 0; t <= s; t++) {
        let [m, own] = [0, 0]
        for (let d = 0; d < slots; d++) {
          const w = weight[s * slots + d]!
          m -= (w * weight[t * slots + d]!) / slotInformation[d]!
          own += w
        }
        m = square * m + (s === t ? own : 0)
        information[s * sheets + t] = m
        information[t * sheets + s] = m
        core[0]! += spread.candidate ** 2 * (s === t ? m : 2 * m)
        core[(s + 1) * size]! += spread.candidate * spread.sheet * m
        if (s !== t) core[(t + 1) * size]! += spread.candidate * spread.sheet * m
        core[(s + 1) * size + t + 1] = spread.sheet ** 2 * m + (s === t ? 1 : 0)
      }
    }
    return logDeterminant + factorize(core, size)
  }

  /** Sheets' gradient once the strengths are eliminated; what `newtonStep` left of it. */
  reduceGradient(spread: Parameters['spread']): Float64Array {
    const { sheets, slots, weight, slotInformation, slotGradient, sheetGradient, shift } = this
    for (let s = 0; s < sheets; s++) {
      let rest = sheetGradient[s]!
      for (let d = 0; d < slots; d++)
        rest -= (spread.measure * weight[s * slots + d]! * slotGradient[d]!) / slotInformation[d]!
      shift[s] = rest
    }
    return shift
  }

  private newtonStep({ spread }: Parameters, modes: Modes, candidate: number): number {
    const { sheets, slots, weight, slotInformation, slotGradient, step, slotStep, shift, firstSheet } = this
    this.reduceGradient(spread)
    step[0] = -modes.candidate[candidate]!
    for (let s = 0; s < sheets; s++) {
      step[0]! += spread.candidate * shift[s]!
      step[s + 1] = spread.sheet * shift[s]! - modes.sheet[firstSheet + s]!
    }
    const { gradient } = this
    for (let i = 0; i <= sheets; i++) gradient[i] = step[i]!
    solveFactored(this.core, sheets + 1, step)
    let decrement = 0
    for (let i = 0; i <= sheets; i++) decrement += gradient[i]! * step[i]!
    for (let d = 0; d < slots; d++) {
      let rest = slotGradient[d]!
      decrement += (rest * rest) / slotInformation[d]!
      for (let s = 0; s < sheets; s++) {
        const moved = spread.candidate * step[0]! + spread.sheet * step[s + 1]!
        rest -= spread.measure * weight[s * slots + d]! * moved
      }
      slotStep[d] = rest / slotInformation[d]!
    }
    return decrement
  }

  /** Takes the step, or half of it as often as it would lead down. */
  private move(candidate: number, parameters: Parameters, modes: Modes, from: number): number {
    let part = 1
    this.add(candidate, modes, part)
    let value = this.linearise(candidate, parameters, modes)
    while (!(value >= from - 1e-12 * Math.abs(from)) && part > 1e-4) {
      this.add(candidate, modes, -part / 2)
      part /= 2
      value = this.linearise(candidate, parameters, modes)
    }
    return value
  }

  private add(candidate: number, modes: Modes, part: number): void {
    const { sheets, slots, firstSheet, firstSlot, step, slotStep } = this
    modes.candidate[candidate]! += part * step[0]!
    for (let s = 0; s < sheets; s++) modes.sheet[firstSheet + s]! += part * step[s + 1]!
    for (let d = 0; d < slots; d++) modes.measure[firstSlot + d]! += part * slotStep[d]!
  }
}

/** What a sheet has beside the candidate's ability: gains, form and lenience. */
function sheetShift(
  data: AbilityData,
  sheet: number,
  gains: ArrayLike<number>,
  spread: Parameters['spread'],
  modes: Modes,
): number {
  let shift = spread.sheet * modes.sheet[sheet]!
  const grader = data.grader[sheet]!
  if (grader >= 0) shift += spread.grader * modes.grader[grader]!
  for (let k = 0; k < gains.length; k++) shift += gains[k]! * data.gain[sheet * gains.length + k]!
  return shift
}

function longest(start: Int32Array): number {
  let most = 0
  for (let i = 1; i < start.length; i++) most = Math.max(most, start[i]! - start[i - 1]!)
  return most
}
