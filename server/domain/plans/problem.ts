/** What a plan is about. */
export type PlanKind = 'retests' | 'manning'

/** Something to be placed, or a place for it, with the facts that a reader of the problem wants to see beside it. */
export interface PlanItem {
  readonly id: string
  readonly [fact: string]: unknown
}

/** One way to place one wanted thing. */
export interface Pair {
  readonly id: string
  readonly wanted: string
  readonly place: string
}

/** No more than `max` of these pairs are taken together. */
export interface AtMost {
  readonly pairs: readonly string[]
  readonly max: number
}

/** Its value: the constant and the coefficients of the pairs taken, together. A pair without a term adds nothing. */
export interface LinearLevel {
  readonly name: string
  readonly sense: 'max' | 'min'
  readonly constant: number
  readonly terms: readonly (readonly [pair: string, coefficient: number])[]
}

/** Its value: over all groups the sum of (base + pairs taken of the group)². */
export interface SquaresLevel {
  readonly name: string
  readonly sense: 'min'
  readonly squares: readonly { readonly base: number; readonly pairs: readonly string[] }[]
}

export type Level = LinearLevel | SquaresLevel

/**
 * What a plan has to solve, as plain data that any program can read. An answer is a set of pairs: each wanted at most once,
 * each place at most once, and every `atMost` holds. Levels count in their order: a later one never costs an earlier one
 * anything. Where two answers are equal in every level, the order of the lists decides.
 */
export interface PlanProblem {
  readonly kind: PlanKind
  readonly wanted: readonly PlanItem[]
  readonly places: readonly PlanItem[]
  readonly pairs: readonly Pair[]
  readonly atMost: readonly AtMost[]
  readonly levels: readonly Level[]
}

/** What a level came to. `bound`: the best that is still possible; equal to the value where that is proved. */
export interface LevelResult {
  readonly name: string
  readonly value: number
  readonly bound: number
}

/** What a solver found. */
export interface Solution {
  /** The pairs taken, in the order of the problem. */
  readonly pairs: readonly string[]
  readonly levels: readonly LevelResult[]
}

/** The answer of a plan. */
export interface PlanAnswer {
  readonly pairs: readonly string[]
  /** What was not placed and why; further facts by kind of plan. */
  readonly unplaced: readonly { readonly wanted: string; readonly reason: string; readonly [fact: string]: unknown }[]
  /** Wanted that compete for fewer places than there are of them. */
  readonly short: readonly { readonly posts: readonly string[]; readonly soldiers: readonly string[] }[]
}
