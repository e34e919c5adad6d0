import { manningProblem } from '../../../server/domain/plans/manning/manning-problem.ts'
import { solveManning } from '../../../server/domain/plans/manning/solve-manning.ts'
import { manningSized } from '../../support/plans/manning-sized.ts'

export interface ManningTimes {
  readonly ceremonies: number
  readonly posts: number
  readonly soldiers: number
  readonly pairs: number
  /** Seconds of processor time to state and solve it; the longest of the rounds. */
  readonly cpuSeconds: number
}

const AIM = { ceremonies: 20, posts: 30, soldiers: 400 }
const SEEDS = [1, 2, 3]

/** Manning of the size it is made for, each drawn unit stated and solved once. */
export function timeManning(): ManningTimes {
  const rounds = SEEDS.map((seed) => {
    const facts = manningSized(seed, AIM)
    const before = process.cpuUsage()
    const problem = manningProblem(facts)
    solveManning(problem)
    const { user, system } = process.cpuUsage(before)
    return { pairs: problem.pairs.length, cpuSeconds: (user + system) / 1e6 }
  })
  return {
    ...AIM,
    pairs: Math.max(...rounds.map(({ pairs }) => pairs)),
    cpuSeconds: Math.max(...rounds.map(({ cpuSeconds }) => cpuSeconds)),
  }
}
