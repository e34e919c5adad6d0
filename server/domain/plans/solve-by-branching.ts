import { judgeAnswer } from './judge-answer.ts'
import type { LevelResult, LinearLevel, PlanProblem, Solution } from './problem.ts'
import { Assignment, type Numbered, numbered } from './relaxation/assignment.ts'

export interface Control {
  /** How many branches are looked at before the best so far is the answer. */
  readonly mostBranches: number
  readonly shouldStop: () => boolean
  /** Told of each better answer. */
  readonly onBetter?: (pairs: readonly string[]) => void
}

export interface Found extends Solution {
  /** Every level is proved to be the best. */
  readonly isProved: boolean
}

/**
 * Solves a problem whose levels are sums. The best assignment without the sets of `atMost` bounds every level; where it
 * breaks a set, more of what is wanted use the set than may, so in any answer at least one of any `max + 1` of these leaves
 * it: one branch for each, the cheapest first. Ends when an answer reaches the bound, when nothing is left to try, or at
 * the limits, and then with the best found and what is still possible.
 */
export function solveByBranching(problem: PlanProblem, control: Control): Found {
  const levels = problem.levels.filter((level): level is LinearLevel => 'terms' in level)
  if (levels.length < problem.levels.length) throw new TypeError('Levels of squares have no linear costs.')
  const numbers = numbered(problem)
  const search = new Search(numbers, levels, control)
  const isProved = search.run()
  const pairs = search.best.map((pair) => numbers.pairs[pair]!.id)
  return { pairs, isProved, levels: withBounds(problem, levels, numbers, pairs, isProved) }
}

class Search {
  best: readonly number[] = []
  readonly #numbers: Numbered
  readonly #assignment: Assignment
  readonly #setsOf: number[][]
  readonly #control: Control
  #bestCost: readonly number[]
  #rootCost: readonly number[] = []
  #branches = 0

  constructor(numbers: Numbered, levels: readonly LinearLevel[], control: Control) {
    this.#numbers = numbers
    this.#control = control
    this.#assignment = new Assignment(numbers, levels)
    this.#bestCost = this.#assignment.costOf([])
    this.#setsOf = numbers.pairs.map(() => [])
    for (const [at, { pairs }] of numbers.atMost.entries()) for (const pair of pairs) this.#setsOf[pair]!.push(at)
  }

  /** Out: whether the best is proved to be the best. */
  run(): boolean {
    if (!this.#assignment.solve(this.#control.shouldStop)) {
      this.#keep(this.#withoutBroken(this.#assignment.taken()))
      return false
    }
    this.#rootCost = this.#assignment.costOf(this.#assignment.taken())
    this.#keep(this.#withoutBroken(this.#assignment.taken()))
    this.#look()
    return this.#isDone() || !this.#isOver()
  }

  #isOver(): boolean {
    return this.#branches >= this.#control.mostBranches || this.#control.shouldStop()
  }

  #isDone(): boolean {
    return compare(this.#bestCost, this.#rootCost) === 0
  }

  #keep(answer: readonly number[]): void {
    const cost = this.#assignment.costOf(answer)
    if (compare(cost, this.#bestCost) >= 0) return
    this.best = answer
    this.#bestCost = cost
    this.#control.onBetter?.(answer.map((pair) => this.#numbers.pairs[pair]!.id))
  }

  /** From the assignment as it is, with its closed pairs. */
  #look(): void {
    const taken = this.#assignment.taken()
    const cost = this.#assignment.costOf(taken)
    if (compare(cost, this.#bestCost) >= 0) return
    const broken = this.#firstBroken(taken)
    if (broken === null) {
      this.#keep(taken)
      return
    }
    const before = this.#assignment.save()
    const { pairs: set, max } = this.#numbers.atMost[broken]!
    const inSet = new Set(set)
    const leaving = taken.filter((pair) => inSet.has(pair)).slice(0, max + 1)
    const branches: { closed: number[]; cost: readonly number[]; isLookedAt: boolean }[] = []
    for (const pair of leaving) {
      if (this.#isOver()) return
      const { wanted } = this.#numbers.pairs[pair]!
      const closed = set.filter((one) => this.#numbers.pairs[one]!.wanted === wanted)
      this.#branches++
      this.#assignment.close(closed)
      const costThen = this.#assignment.costOf(this.#assignment.taken())
      const isLookedAt = compare(costThen, cost) === 0
      if (isLookedAt) this.#look()
      this.#assignment.reopen(closed, before)
      if (this.#isDone()) return
      branches.push({ closed, cost: costThen, isLookedAt })
    }
    for (const branch of branches.sort((a, b) => compare(a.cost, b.cost))) {
      if (branch.isLookedAt || compare(branch.cost, this.#bestCost) >= 0) continue
      if (this.#isDone() || this.#isOver()) return
      this.#assignment.close(branch.closed)
      this.#look()
      this.#assignment.reopen(branch.closed, before)
    }
  }

  #firstBroken(taken: readonly number[]): number | null {
    const counts = new Map<number, number>()
    for (const pair of taken) for (const set of this.#setsOf[pair]!) counts.set(set, (counts.get(set) ?? 0) + 1)
    const broken = [...counts].filter(([set, count]) => count > this.#numbers.atMost[set]!.max).map(([set]) => set)
    return broken.length === 0 ? null : Math.min(...broken)
  }

  /** What is left of an assignment when each set keeps the first of its pairs. */
  #withoutBroken(taken: readonly number[]): number[] {
    const counts = new Map<number, number>()
    return taken.filter((pair) => {
      const sets = this.#setsOf[pair]!
      if (sets.some((set) => (counts.get(set) ?? 0) >= this.#numbers.atMost[set]!.max)) return false
      for (const set of sets) counts.set(set, (counts.get(set) ?? 0) + 1)
      return true
    })
  }
}

function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((each, word) => each !== b[word])
  return at === -1 ? 0 : a[at]! - b[at]!
}

/**
 * Each level with the best still possible while those before it keep their values. Up to the first that is not reached
 * this is what the assignment without the sets comes to; after it, what that comes to with the reached ones before.
 */
function withBounds(
  problem: PlanProblem,
  levels: readonly LinearLevel[],
  numbers: Numbered,
  pairs: readonly string[],
  isProved: boolean,
): LevelResult[] {
  const { values } = judgeAnswer(problem, pairs)
  let reached = 0
  return levels.map(({ name, sense }, at) => {
    const value = values[at]!
    if (isProved) return { name, value, bound: value }
    const best = new Assignment(numbers, [...levels.slice(0, reached), levels[at]!])
    if (!best.solve(() => false)) throw new Error('It was not told to stop.')
    const ids = best.taken().map((pair) => numbers.pairs[pair]!.id)
    const relaxed = judgeAnswer(problem, ids).values[at]!
    const bound = sense === 'max' ? Math.max(relaxed, value) : Math.min(relaxed, value)
    if (reached === at && Math.abs(bound - value) < 1e-9) reached++
    return { name, value, bound }
  })
}
