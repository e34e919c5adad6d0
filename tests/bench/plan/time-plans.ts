import { solveByBranching } from '../../../server/domain/plans/solve-by-branching.ts'
import { retestSized } from '../../support/plans/retest-sized.ts'

export interface PlanTimes {
  readonly tests: number
  readonly slots: number
  readonly pairs: number
  /** Milliseconds until there is an answer that can be done, and until the search ended; the longest of the rounds. */
  readonly first: number
  readonly whole: number
  /** The largest gap of a level, as a share of its bound. */
  readonly gap: number
}

const AIM = { tests: 300, days: 20, slots: 24, graders: 12, sponsors: 60 }
const SEEDS = [1, 2, 3]
const LIMIT_MS = 10_000
const MOST_BRANCHES = 20_000

/** Retest plans of the size they are made for, each solved once. */
export function timePlans(): PlanTimes {
  const rounds = SEEDS.map((seed) => {
    const problem = retestSized(seed, AIM)
    const start = performance.now()
    let first = Number.POSITIVE_INFINITY
    const { levels } = solveByBranching(problem, {
      mostBranches: MOST_BRANCHES,
      shouldStop: () => performance.now() - start > LIMIT_MS,
      onBetter: () => {
        first = Math.min(first, performance.now() - start)
      },
    })
    const gaps = levels.map(({ value, bound }) => Math.abs(value - bound) / Math.max(1, Math.abs(bound)))
    return { pairs: problem.pairs.length, first, whole: performance.now() - start, gap: Math.max(...gaps) }
  })
  const worst = (of: (round: (typeof rounds)[number]) => number) => Math.max(...rounds.map(of))
  return {
    tests: AIM.tests,
    slots: AIM.days * AIM.slots,
    pairs: worst(({ pairs }) => pairs),
    first: worst(({ first }) => first),
    whole: worst(({ whole }) => whole),
    gap: worst(({ gap }) => gap),
  }
}
