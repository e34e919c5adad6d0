/** Standard deviations of what differs at random, in logits. 0: left out. */
export interface Spread {
  /** Ability, between candidates. */
  readonly candidate: number
  /** A candidate's own strength in one measure. */
  readonly measure: number
  /** The form of the day. */
  readonly sheet: number
  /** Severity, between graders. */
  readonly grader: number
}

/** What the model knows of a unit. A trial is correct with probability logistic(ease + gain + ability + strength + form − severity). */
export interface Parameters {
  /** β, by measure: the logit of a correct trial for the average candidate's first test. */
  readonly ease: ArrayLike<number>
  /** γ, by gain of the design. */
  readonly gains: ArrayLike<number>
  readonly spread: Spread
}

/** Estimates of what differs at random, each divided by its standard deviation; `grader` is lenience, so minus severity. */
export interface Modes {
  readonly candidate: Float64Array
  /** By slot. */
  readonly measure: Float64Array
  readonly sheet: Float64Array
  readonly grader: Float64Array
}
