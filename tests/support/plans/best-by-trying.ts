import { judgeAnswer } from '../../../server/domain/plans/judge-answer.ts'
import type { PlanProblem } from '../../../server/domain/plans/problem.ts'

/** The values of the best answer, found by trying every one. */
export function bestByTrying(problem: PlanProblem): number[] {
  let best: readonly number[] | null = null
  for (const values of everyAnswer(problem)) {
    const at = problem.levels.findIndex((_, level) => best === null || Math.abs(values[level]! - best[level]!) > 1e-9)
    if (at !== -1 && (best === null || isBetter(problem, at, values[at]!, best[at]!))) best = values
  }
  return [...best!]
}

/** The best of one level over all answers in which those before it are no worse than held. */
export function bestOfLevel(problem: PlanProblem, level: number, held: readonly number[]): number {
  const allowed = everyAnswer(problem).filter((values) =>
    values.slice(0, level).every((value, at) => !isBetter(problem, at, held[at]!, value)),
  )
  const reached = allowed.map((values) => values[level]!)
  return problem.levels[level]!.sense === 'max' ? Math.max(...reached) : Math.min(...reached)
}

function isBetter(problem: PlanProblem, level: number, one: number, other: number): boolean {
  return problem.levels[level]!.sense === 'max' ? one > other + 1e-9 : one < other - 1e-9
}

/** The values of every answer that can be done. */
function everyAnswer(problem: PlanProblem): (readonly number[])[] {
  const all: (readonly number[])[] = []
  const tryFrom = (at: number, taken: string[], used: ReadonlySet<string>) => {
    const wanted = problem.wanted[at]
    if (!wanted) {
      const { broken, values } = judgeAnswer(problem, taken)
      if (broken.length === 0) all.push(values)
      return
    }
    tryFrom(at + 1, taken, used)
    for (const { id, place } of problem.pairs.filter((pair) => pair.wanted === wanted.id && !used.has(pair.place))) {
      tryFrom(at + 1, [...taken, id], new Set([...used, place]))
    }
  }
  tryFrom(0, [], new Set())
  return all
}
