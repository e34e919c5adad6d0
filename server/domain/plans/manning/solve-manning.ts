import { judgeAnswer } from '../judge-answer.ts'
import type { PlanProblem, Solution } from '../problem.ts'
import { leastCost, type Numbers, numbersOf } from './least-cost.ts'

/** So many ways round two ceremonies that clash are tried before the best so far is the answer. */
const MOST_TRIES = 200

/**
 * Solves a problem of manning: posts first, all levels but alternates at once as one flow of least cost, then alternates from who
 * is left. Squares are convex, so each ceremony more of a soldier is an arc that costs more (Ahuja, Magnanti and Orlin, Network
 * Flows, 1993, chapter 14); posts that take the same people at the same costs are one node.
 *
 * Exact where no set of `atMost` is broken; where one is, by closing one of its pairs after the other, with true bounds. Same
 * problem, same answer. In: a problem of `manningProblem`. Out: pairs in the order of the problem.
 */
export function solveManning(problem: PlanProblem): Solution {
  const numbers = numbersOf(problem)
  const alternates = new Set(problem.wanted.flatMap(({ kind }, at) => (kind === 'alternate' ? [at] : [])))
  const all = problem.pairs.map((_, pair) => pair)
  const posts = all.filter((pair) => !alternates.has(numbers.wanted[pair]!))
  const first = search(problem, numbers, posts)
  const used = new Set(first.pairs.map((pair) => numbers.place[pair]!))
  const busy = new Set(first.pairs)
  const forAlternates = all.filter((pair) => alternates.has(numbers.wanted[pair]!))
  const left = forAlternates.filter((pair) => !used.has(numbers.place[pair]!) && !numbers.clashes(busy, pair))
  const second = search(problem, numbers, left)
  const taken = [...first.pairs, ...second.pairs].sort((a, b) => a - b)
  const pairs = idsOf(problem, taken)
  const { values } = judgeAnswer(problem, pairs)
  const most = second.pairs.length === alternates.size ? alternates.size : leastCost(numbers, forAlternates).length
  return {
    pairs,
    levels: problem.levels.map(({ name }, at) => {
      const value = values[at]!
      if (name === 'alternates') return { name, value, bound: most }
      return { name, value, bound: first.isProved ? value : first.bounds[at]! }
    }),
  }
}

const idsOf = (problem: PlanProblem, pairs: readonly number[]): string[] => pairs.map((pair) => problem.pairs[pair]!.id)

interface Searched {
  readonly pairs: readonly number[]
  readonly isProved: boolean
  /** By level, the value without the sets of `atMost`. */
  readonly bounds: readonly number[]
}

/** The best of some pairs; where a set of `atMost` is broken, the best found by closing its pairs. */
function search(problem: PlanProblem, numbers: Numbers, pairs: readonly number[]): Searched {
  const relaxed = leastCost(numbers, pairs)
  if (!numbers.broken(relaxed)) return { pairs: relaxed, isProved: true, bounds: [] }
  const bounds = valuesOf(problem, relaxed)
  const open: { closed: ReadonlySet<number>; pairs: readonly number[]; values: readonly number[] }[] = [
    { closed: new Set(), pairs: relaxed, values: bounds },
  ]
  for (let tries = 0; tries < MOST_TRIES && open.length > 0; tries++) {
    open.sort((a, b) => compare(problem, a.values, b.values))
    const best = open.shift()!
    const broken = numbers.broken(best.pairs)
    if (!broken) return { pairs: best.pairs, isProved: true, bounds }
    // Of two overlapping ceremonies the soldier stands in one: all pairs of the other are closed.
    for (const pair of broken) {
      const other = broken.find((one) => one !== pair)!
      const closed = new Set([...best.closed, ...sameCeremony(problem, numbers, other)])
      const left = leastCost(
        numbers,
        pairs.filter((one) => !closed.has(one)),
      )
      open.push({ closed, pairs: left, values: valuesOf(problem, left) })
    }
  }
  return { pairs: withoutClashes(numbers, open[0]?.pairs ?? []), isProved: false, bounds }
}

const valuesOf = (problem: PlanProblem, pairs: readonly number[]): readonly number[] =>
  judgeAnswer(problem, idsOf(problem, pairs)).values

function compare({ levels }: PlanProblem, one: readonly number[], other: readonly number[]): number {
  const at = levels.findIndex((_, level) => Math.abs(one[level]! - other[level]!) > 1e-9)
  if (at === -1) return 0
  return levels[at]!.sense === 'max' ? other[at]! - one[at]! : one[at]! - other[at]!
}

/** All pairs of the soldier of a pair in its ceremony. */
function sameCeremony({ wanted, pairs }: PlanProblem, numbers: Numbers, pair: number): number[] {
  const { ceremony } = wanted[numbers.wanted[pair]!]!
  return pairs.flatMap((_, other) =>
    numbers.place[other] === numbers.place[pair] && wanted[numbers.wanted[other]!]!.ceremony === ceremony
      ? [other]
      : [],
  )
}

function withoutClashes(numbers: Numbers, pairs: readonly number[]): number[] {
  const kept = new Set<number>()
  for (const pair of pairs) if (!numbers.clashes(kept, pair)) kept.add(pair)
  return [...kept]
}
