import { afterEach, describe, expect, it } from 'vitest'
import { judgeAnswer } from '../../../server/domain/plans/judge-answer.ts'
import type { PlanProblem } from '../../../server/domain/plans/problem.ts'
import { solveExactly } from '../../../server/plans/solver/solve-exactly.ts'
import { solveProblem } from '../../../server/plans/solver/solve-problem.ts'
import { SolverQueue } from '../../../server/plans/solver/solver-queue.ts'
import { bestByTrying } from '../../support/plans/best-by-trying.ts'
import { randomProblem } from '../../support/plans/random-problem.ts'
import { retestSized } from '../../support/plans/retest-sized.ts'

const NOTHING = { pairs: [], levels: [] }
/** More tests than the few graders and sponsors of four days can take: sets decide, and no assignment without them is near. */
const KNOTTED = retestSized(6, { tests: 40, days: 4, slots: 6, graders: 12, sponsors: 6 })

describe('solving exactly', () => {
  it('finds the best of every level of 2,000 small problems, with squares', async () => {
    let withSquares = 0
    for (let seed = 0; seed < 2000; seed++) {
      const problem = randomProblem(seed, { wanted: 4, places: 4, density: 0.6, sets: 3, withSquares: true })
      const { pairs, levels } = await solveExactly(problem, NOTHING, 3600)
      expect(judgeAnswer(problem, pairs).broken, `problem ${seed}`).toEqual([])
      const best = bestByTrying(problem)
      for (const [at, { value, bound }] of levels.entries()) {
        expect(value, `problem ${seed}, level ${at}`).toBeCloseTo(best[at]!, 6)
        expect(bound).toBe(value)
      }
      if (problem.levels.some((level) => 'squares' in level)) withSquares++
    }
    expect(withSquares).toBeGreaterThan(500)
  }, 300_000)

  it('closes what branching alone leaves open', async () => {
    const { pairs, levels } = await solveProblem(KNOTTED, {
      seconds: 3600,
      shouldStop: () => false,
      onBetter: () => {},
      onFound: ({ levels: open }) => expect(open.some(({ value, bound }) => value !== bound)).toBe(true),
    })
    expect(judgeAnswer(KNOTTED, pairs).broken).toEqual([])
    for (const { value, bound } of levels) expect(bound).toBe(value)
  }, 300_000)
})

describe('the queue of problems', () => {
  let queue = new SolverQueue()
  afterEach(async () => {
    await queue.close()
    queue = new SolverQueue()
  })
  const small = randomProblem(3, { wanted: 5, places: 5, density: 0.8, sets: 2 })

  it('solves one after the other and says how many are ahead', async () => {
    const tickets = [small, small, small].map((problem) => queue.add(problem, 10))
    expect(tickets.map((ticket) => ticket.progress().ahead)).toEqual([0, 1, 2])
    expect(queue.length).toBe(3)
    const outcomes = await Promise.all(tickets.map(({ outcome }) => outcome))
    for (const outcome of outcomes) {
      if (outcome.state !== 'ready') throw new Error(outcome.state)
      expect(outcome.solution.levels.map(({ value }) => value)).toEqual(bestByTrying(small))
    }
    expect(queue.length).toBe(0)
  })

  it('answers with the best so far when it is stopped', async () => {
    const ticket = queue.add(retestSized(4, { tests: 200, days: 20, slots: 24, graders: 12, sponsors: 6 }), 600)
    while (ticket.progress().placed === null) await new Promise((resolve) => setTimeout(resolve, 20))
    ticket.stop()
    const outcome = await ticket.outcome
    expect(outcome.state).toBe('stopped')
    expect(outcome).toHaveProperty('solution.levels')
  }, 120_000)

  it('takes a problem that needs too much memory for failed, and solves the next', async () => {
    const little = new SolverQueue({ maxOldGenerationSizeMb: 24, maxYoungGenerationSizeMb: 4 })
    try {
      const large = little.add(retestSized(1, { tests: 300, days: 20, slots: 24, graders: 12, sponsors: 60 }), 60)
      const next = little.add(small, 10)
      expect(await large.outcome).toMatchObject({ state: 'failed' })
      expect(await next.outcome).toMatchObject({ state: 'ready' })
    } finally {
      await little.close()
    }
  }, 120_000)

  it('takes what is no problem for failed, and nothing else', async () => {
    const broken = queue.add({ ...small, levels: null } as unknown as PlanProblem, 10)
    const next = queue.add(small, 10)
    expect(await broken.outcome).toMatchObject({ state: 'failed' })
    expect(await next.outcome).toMatchObject({ state: 'ready' })
  })
})
