import type { AbilityData } from './ability-data.ts'
import { ModeFinder } from './find-modes.ts'
import type { LogitSlope } from './logit-slope.ts'
import { LogitSlopes } from './logit-slope.ts'
import type { Modes, Parameters } from './parameters.ts'

/** The marginal log-likelihood and its slope; spreads by their logarithm. */
export interface Marginal extends LogitSlope {
  readonly value: number
}

/**
 * The log-likelihood of the parameters with all that differs at random integrated by Laplace's approximation, and its exact
 * gradient: log f(y, b̂) − ½ log |H| at the joint mode b̂ of everything at random, graders included.
 *
 * Source: L. Tierney & J. Kadane (1986), *JASA* 81:82–86; for these models D. Bates et al. (2015), *J. Stat. Software*
 * 67(1); the slope of log |H| as in H. Skaug & D. Fournier (2006), *Comput. Stat. Data Anal.* 51:699–709.
 */
export class MarginalLikelihood {
  private readonly finder: ModeFinder
  private readonly slopes: LogitSlopes
  private readonly constant: number

  /** @param largestBlock so many graders are looked at together without leaving anything out, see `GraderCoupling` */
  constructor(data: AbilityData, hasGraders: boolean, largestBlock?: number) {
    this.finder = new ModeFinder(data, hasGraders, largestBlock)
    this.slopes = new LogitSlopes(this.finder)
    this.constant = logBinomials(data)
  }

  /** @param modes where to begin; they are moved to their peak */
  evaluate(parameters: Parameters, modes: Modes): Marginal {
    const { value, logDeterminant } = this.finder.find(parameters, modes)
    const slope = this.slopes.at(parameters, modes)
    return { value: value - 0.5 * logDeterminant + this.constant, ...slope }
  }

  /** Variance of each grader's lenience, in its own standard deviations, given the data; at the modes last found. */
  graderVariances(): Float64Array {
    const { coupling } = this.finder
    return Float64Array.from({ length: coupling.graders }, (_, j) => coupling.covariance(j, j))
  }
}

/** What the binomial coefficients add, so that log-likelihoods compare with those of other programs. */
function logBinomials({ correct, tried }: AbilityData): number {
  const logFactorials = [0, 0]
  const logFactorial = (n: number) => {
    for (let k = logFactorials.length; k <= n; k++) logFactorials.push(logFactorials[k - 1]! + Math.log(k))
    return logFactorials[n]!
  }
  let total = 0
  for (let i = 0; i < tried.length; i++) {
    total += logFactorial(tried[i]!) - logFactorial(correct[i]!) - logFactorial(tried[i]! - correct[i]!)
  }
  return total
}
