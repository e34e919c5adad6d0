import { benjaminiHochberg } from '../proportions/benjamini-hochberg.ts'
import { FEW_ATTEMPTS } from '../proportions/few-attempts.ts'
import { type CoachedGroup, type CoachedPasses, coachedPasses } from './coached-passes.ts'
import { type CoachedRate, coachingEffects } from './coaching-effects.ts'
import type { PassModel } from './fit-passes.ts'

/** Whether somebody differs from the others by more than chance allows; `few`: too few attempts to be asked. */
export type Differs = 'above' | 'below' | 'no' | 'few'

export interface JudgedCoaching extends CoachedPasses {
  readonly estimate: CoachedRate
  /** Null where there are too few attempts to be asked. */
  readonly adjustedP: number | null
  readonly differs: Differs
}

/** Of those said to differ, at most this share is expected to be said wrongly. */
export const FALSE_SHARE = 0.05

/**
 * One verdict a sponsor, over all sponsors with enough attempts as one family of tests (Benjamini and Hochberg), so that where
 * nobody differs somebody is called different in at most 5 % of units.
 * In: the model; by sponsor the candidates. Out: in the same order.
 */
export function judgeCoaching(model: PassModel, people: readonly (readonly CoachedGroup[])[]): JudgedCoaching[] {
  const passes = coachedPasses(model, people)
  const estimates = coachingEffects(model, people)
  const asked = passes.filter(({ attempts }) => attempts >= FEW_ATTEMPTS)
  const adjusted = new Map(benjaminiHochberg(asked.map(({ p }) => p)).map((p, i) => [asked[i]!, p]))
  return passes.map((one, i) => {
    const adjustedP = adjusted.get(one) ?? null
    const side = one.passes > one.expected ? 'above' : 'below'
    const differs = adjustedP === null ? 'few' : adjustedP <= FALSE_SHARE ? side : 'no'
    return { ...one, estimate: estimates[i]!, adjustedP, differs }
  })
}
