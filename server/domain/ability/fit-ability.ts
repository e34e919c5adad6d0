import { type AbilityData, everySoManyth } from './ability-data.ts'
import { startModes } from './find-modes.ts'
import { MarginalLikelihood } from './marginal-likelihood.ts'
import { type Evaluated, minimise } from './minimise.ts'
import type { Modes, Parameters, Spread } from './parameters.ts'
import type { Priors } from './priors.ts'

export type SpreadName = keyof Spread
export const SPREADS: readonly SpreadName[] = ['candidate', 'measure', 'sheet', 'grader']

export interface FitOptions {
  /** Which spreads are in the model; the others are 0. */
  readonly spreads?: readonly SpreadName[]
  /** Null: none, plain maximum likelihood. */
  readonly priors?: Priors | null
  /** Parameters to begin with, such as those of the last fit. */
  readonly start?: Parameters | undefined
  /** Spreads that are not fitted but stay so. */
  readonly fixed?: Spread | undefined
}

export interface AbilityFit {
  readonly parameters: Parameters
  /** Ability, strengths, forms and lenience that are most likely with these, in standard deviations. */
  readonly modes: Modes
  /** Of the data alone, by Laplace's approximation. */
  readonly logLikelihood: number
  readonly converged: boolean
  readonly steps: number
  /** Variance of each grader's lenience given the data, in ω². */
  readonly graderVariances: Float64Array
}

const FIRST_SPREAD: Spread = { candidate: 0.8, measure: 0.5, sheet: 0.4, grader: 0.3 }

/** From so many sheets on a fit begins with a sample of about as many as the second says. */
const MANY_SHEETS = 12_000
const SAMPLE_SHEETS = 5_000

/**
 * The parameters that make the sheets most likely, with ability, strengths, forms and severity integrated by Laplace's
 * approximation (see `MarginalLikelihood`), or with priors the peak of the posterior.
 *
 * Of very many sheets those of every so-many-th candidate are fitted first; from there, and with the curvature found there, the
 * whole takes a few steps instead of dozens. The result is that of all sheets.
 * In: sheets, packed. Out: the fit; deterministic.
 */
export function fitAbility(data: AbilityData, options: FitOptions = {}): AbilityFit {
  const every = data.source.length >= MANY_SHEETS ? Math.floor(data.source.length / SAMPLE_SHEETS) : 1
  if (every === 1) return search(data, options).fit
  const sample = everySoManyth(data, every)
  const { fit, inverseCurvature } = search(sample, options)
  const share = sample.source.length / data.source.length
  const whole = search(
    data,
    { ...options, start: fit.parameters },
    inverseCurvature.map((each) => each * share),
  ).fit
  // Where the curvature of the sample misleads, the search goes on with its own.
  return whole.converged ? whole : search(data, { ...options, start: whole.parameters }).fit
}

function search(data: AbilityData, options: FitOptions, scale?: Float64Array) {
  const { priors = null, start, fixed } = options
  const used = (options.spreads ?? SPREADS).filter((name) => name !== 'grader' || data.design.graders > 0)
  const free = fixed ? [] : used
  const hasGraders = used.includes('grader')
  const [measures, gains] = [data.design.strengthOf.length, data.design.gains]
  const likelihood = new MarginalLikelihood(data, hasGraders)
  const modes = startModes(data)
  const toParameters = (at: Float64Array): Parameters => ({
    ease: at.subarray(0, measures),
    gains: at.subarray(measures, measures + gains),
    spread: spreadOf((name) => {
      if (!used.includes(name)) return 0
      return fixed ? fixed[name] : Math.exp(Math.max(LEAST_LOG, at[measures + gains + free.indexOf(name)]!))
    }),
  })
  const evaluate = (at: Float64Array): Evaluated => {
    const parameters = toParameters(at)
    const { value, ease, gains: byGain, spread } = likelihood.evaluate(parameters, modes)
    const gradient = Float64Array.from([...ease, ...byGain, ...free.map((name) => spread[name])])
    const prior = priors ? addPriors(priors, parameters, free, gradient) : 0
    return { value: -(value + prior), gradient: gradient.map((g) => -g) }
  }
  const from = Float64Array.from([
    ...(start?.ease ? Array.from(start.ease) : startEase(data)),
    ...(start?.gains ? Array.from(start.gains) : new Array<number>(gains).fill(0)),
    ...free.map((name) => Math.log(start?.spread[name] || FIRST_SPREAD[name])),
  ])
  const found = minimise(evaluate, from, scale ?? scaleOf(data, free, from.length), toleranceFor(data))
  const parameters = toParameters(found.at)
  const { value } = likelihood.evaluate(parameters, modes)
  const fit: AbilityFit = {
    parameters,
    modes,
    logLikelihood: value,
    converged: found.converged,
    steps: found.steps,
    graderVariances: likelihood.graderVariances(),
  }
  return { fit, inverseCurvature: found.inverseCurvature }
}

/** The log-likelihood of many sheets is known no better than this; a step worth less leaves every parameter within a hundredth of its error. */
const toleranceFor = ({ source }: AbilityData): number => Math.max(1e-7, 3e-10 * source.length)

/** A spread smaller than e⁻⁸ is none. */
const LEAST_LOG = -8

const spreadOf = (value: (name: SpreadName) => number): Spread => ({
  candidate: value('candidate'),
  measure: value('measure'),
  sheet: value('sheet'),
  grader: value('grader'),
})

/** The logit of each measure's share, half a trial added to either side. */
function startEase({ design, measure, correct, tried }: AbilityData): number[] {
  const counts = design.strengthOf.map(() => ({ right: 0.5, all: 1 }))
  for (let cell = 0; cell < measure.length; cell++) {
    counts[measure[cell]!]!.right += correct[cell]!
    counts[measure[cell]!]!.all += tried[cell]!
  }
  return counts.map(({ right, all }) => Math.log(right / (all - right)))
}

/** A guess of each parameter's variance, from how many trials, sheets and candidates speak of it. */
function scaleOf(
  { design, measure, tried, slotStart, cellStart }: AbilityData,
  free: readonly SpreadName[],
  size: number,
) {
  const scale = new Float64Array(size)
  const trials = new Float64Array(design.strengthOf.length)
  for (let cell = 0; cell < measure.length; cell++) trials[measure[cell]!]! += tried[cell]!
  const sheets = cellStart.length - 1
  trials.forEach((count, i) => {
    scale[i] = 1 / (1 + 0.1 * count)
  })
  for (let k = 0; k < design.gains; k++) scale[design.strengthOf.length + k] = 1 / (1 + 0.5 * sheets)
  const levels = {
    candidate: design.candidates,
    measure: 0.3 * slotStart[design.candidates]!,
    sheet: 0.5 * sheets,
    grader: design.graders,
  }
  free.forEach((name, i) => {
    scale[size - free.length + i] = 1 / (1 + levels[name])
  })
  return scale
}

/** Adds the slopes of the priors' log-densities to the gradient. Out: their sum, without constants. */
function addPriors(
  { ease, gain, spreadPeak }: Priors,
  parameters: Parameters,
  free: readonly SpreadName[],
  gradient: Float64Array,
): number {
  let value = 0
  let at = 0
  for (; at < parameters.ease.length; at++) {
    const z = (parameters.ease[at]! - ease.mean) / ease.sd
    value -= 0.5 * z * z
    gradient[at]! -= z / ease.sd
  }
  for (let k = 0; k < parameters.gains.length; k++, at++) {
    const z = parameters.gains[k]! / gain.sd
    value -= 0.5 * z * z
    gradient[at]! -= z / gain.sd
  }
  for (const name of free) {
    const relative = parameters.spread[name] / spreadPeak[name]
    value += Math.log(relative) - relative
    gradient[at++]! += 1 - relative
  }
  return value
}
