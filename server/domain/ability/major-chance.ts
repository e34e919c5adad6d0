/** NO-GO of a major among the tests that judged it. */
export interface MajorCount {
  readonly noGo: number
  readonly judged: number
}

/**
 * What is believed of a major before any test: a NO-GO in one test of twenty, as sure as ten tests would make it. Our judgement,
 * not published; it keeps a major that never failed from being called impossible, and a few dozen tests outweigh it.
 */
const PRIOR: MajorCount = { noGo: 0.5, judged: 10 }
/** A kind of attempt is drawn toward the unit's figure of all kinds, which counts like so many of its own tests. */
const UNIT_WEIGHT = 20

/** A chance as far as it is known. */
export interface KnownChance {
  readonly chance: number
  readonly variance: number
}

/**
 * The chance of a NO-GO of a major in one kind of attempt, shrunk toward the unit's in all kinds: the mean of a beta
 * distribution after binomial counts (A. Gelman et al. 2013, *Bayesian Data Analysis*, 3rd ed., 2.4). Its variance is that
 * distribution's, and that of the unit's figure by the weight it has.
 * Example: never in 200 tests, 30 of them of the kind: (0.5/210 × 20)/50 = 0.00095.
 */
export function majorChance(ofKind: MajorCount, ofAll: MajorCount): KnownChance {
  const unit = (ofAll.noGo + PRIOR.noGo) / (ofAll.judged + PRIOR.judged)
  const size = ofKind.judged + UNIT_WEIGHT
  const chance = (ofKind.noGo + UNIT_WEIGHT * unit) / size
  const ofUnit = (UNIT_WEIGHT / size) ** 2 / (ofAll.judged + PRIOR.judged + 1)
  return { chance, variance: chance * (1 - chance) * (1 / (size + 1) + ofUnit) }
}
