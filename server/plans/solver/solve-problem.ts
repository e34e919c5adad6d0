import { judgeAnswer } from '../../domain/plans/judge-answer.ts'
import { solveManning } from '../../domain/plans/manning/solve-manning.ts'
import type { PlanProblem, Solution } from '../../domain/plans/problem.ts'
import { solveByBranching } from '../../domain/plans/solve-by-branching.ts'
import { solveExactly } from './solve-exactly.ts'

export interface SolveControl {
  readonly seconds: number
  readonly shouldStop: () => boolean
  /** Told of each better answer. */
  readonly onBetter: (pairs: readonly string[]) => void
  /** Told of an answer with its bounds, which stands unless a better one comes. */
  readonly onFound: (solution: Solution) => void
}

const MOST_BRANCHES = 20_000
/** A linear program of more pairs than that takes longer than anybody waits. */
const MOST_EXACT_PAIRS = 6_000
/** What is left is for the bounds and for the linear program. */
const SHARE_OF_BRANCHING = 0.5

/** Solves a problem: manning as a flow; else by branching, and what that does not close and is small enough by a linear program. */
export async function solveProblem(problem: PlanProblem, control: SolveControl): Promise<Solution> {
  if (isOfCeremonies(problem)) return solveManning(problem)
  const started = performance.now()
  const passed = () => (performance.now() - started) / 1000
  let start: Solution = nothingPlaced(problem)
  if (problem.levels.every((level) => 'terms' in level)) {
    const found = solveByBranching(problem, {
      mostBranches: MOST_BRANCHES,
      shouldStop: () => control.shouldStop() || passed() > control.seconds * SHARE_OF_BRANCHING,
      onBetter: control.onBetter,
    })
    if (found.isProved || control.shouldStop() || problem.pairs.length > MOST_EXACT_PAIRS) return withoutFlag(found)
    start = withoutFlag(found)
    control.onFound(start)
  }
  return solveExactly(problem, start, Math.max(1, control.seconds - passed()))
}

/** Whether it was stated for ceremonies, as `solveManning` takes it. */
const isOfCeremonies = ({ kind, wanted }: PlanProblem): boolean =>
  kind === 'manning' && wanted.every((one) => one.kind === 'post' || one.kind === 'alternate')

const withoutFlag = ({ pairs, levels }: Solution): Solution => ({ pairs, levels })

/** To start from where there is no bound yet: none is claimed that could be beaten. */
function nothingPlaced(problem: PlanProblem): Solution {
  const { values } = judgeAnswer(problem, [])
  const levels = problem.levels.map((level, at) => ({
    name: level.name,
    value: values[at]!,
    bound: 'squares' in level ? 0 : level.constant + reach(level),
  }))
  return { pairs: [], levels }
}

function reach({ sense, terms }: Extract<PlanProblem['levels'][number], { readonly constant: number }>): number {
  const good = terms.map(([, coefficient]) => (sense === 'max' ? Math.max(0, coefficient) : Math.min(0, coefficient)))
  return good.reduce((sum, each) => sum + each, 0)
}
