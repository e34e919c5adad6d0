import { describe, expect, it } from 'vitest'
import { judgeAnswer } from '../../../../server/domain/plans/judge-answer.ts'
import type { PlanProblem } from '../../../../server/domain/plans/problem.ts'
import { solveByBranching } from '../../../../server/domain/plans/solve-by-branching.ts'
import { bestByTrying, bestOfLevel } from '../../../support/plans/best-by-trying.ts'
import { randomProblem, seeded } from '../../../support/plans/random-problem.ts'

/** Optima from elsewhere, each the only one; columns from 0. */
const PUBLISHED = [
  {
    // scipy, documentation of linear_sum_assignment.
    name: 'the example of scipy',
    gains: [
      [4, 1, 3],
      [2, 0, 5],
      [3, 2, 2],
    ],
    sense: 'min',
    best: 5,
    columns: [1, 0, 2],
  },
  {
    // R, lpSolve, documentation of lp.assign.
    name: 'the example of lpSolve',
    gains: [
      [2, 7, 7, 1],
      [7, 7, 2, 9],
      [7, 3, 8, 8],
      [2, 2, 10, 2],
    ],
    sense: 'min',
    best: 8,
    columns: [3, 2, 1, 0],
  },
  {
    // H. W. Kuhn (1955), Naval Research Logistics Quarterly 2, 83–97.
    name: 'the ratings of Kuhn',
    gains: [
      [8, 7, 9, 9],
      [5, 2, 7, 8],
      [6, 1, 4, 9],
      [2, 3, 2, 6],
    ],
    sense: 'max',
    best: 27,
    columns: [0, 2, 3, 1],
  },
] as const

function assignmentProblem(gains: readonly (readonly number[])[], sense: 'max' | 'min'): PlanProblem {
  const cells = gains.flatMap((list, row) => list.map((gain, column) => ({ gain, row: `${row}`, column: `${column}` })))
  const pairs = cells.map(({ row, column }) => ({ id: `${row},${column}`, wanted: row, place: column }))
  return {
    kind: 'retests',
    wanted: gains.map((_, row) => ({ id: `${row}` })),
    places: gains[0]!.map((_, column) => ({ id: `${column}` })),
    pairs,
    atMost: [],
    levels: [
      { name: 'placed', sense: 'max', constant: 0, terms: pairs.map(({ id }) => [id, 1]) },
      { name: 'gain', sense, constant: 0, terms: cells.map(({ gain, row, column }) => [`${row},${column}`, gain]) },
    ],
  }
}

const UNBOUNDED = { mostBranches: 100_000, shouldStop: () => false }

describe('solving by branching', () => {
  it('finds the best of every level of 3,000 small problems', () => {
    let withSets = 0
    for (let seed = 0; seed < 3000; seed++) {
      const problem = randomProblem(seed, { wanted: 5, places: 5, density: 0.6, sets: 4 })
      const found = solveByBranching(problem, UNBOUNDED)
      const { broken, values } = judgeAnswer(problem, found.pairs)
      expect(broken, `problem ${seed}`).toEqual([])
      const best = bestByTrying(problem)
      for (const [level, value] of values.entries()) {
        expect(value, `problem ${seed}, level ${level}`).toBeCloseTo(best[level]!, 9)
        expect(found.levels[level]!.value).toBe(value)
        expect(found.levels[level]!.bound).toBe(value)
      }
      if (problem.atMost.length > 0) withSets++
    }
    expect(withSets).toBeGreaterThan(1500)
  }, 120_000)

  it('never claims a bound that can be beaten where it stops early', () => {
    let open = 0
    for (let seed = 0; seed < 2000; seed++) {
      const problem = randomProblem(seed, { wanted: 5, places: 5, density: 0.7, sets: 6 })
      const found = solveByBranching(problem, { mostBranches: 1, shouldStop: () => false })
      expect(judgeAnswer(problem, found.pairs).broken).toEqual([])
      if (!found.isProved) open++
      for (const [at, level] of problem.levels.entries()) {
        const best = bestOfLevel(
          problem,
          at,
          found.levels.map(({ value }) => value),
        )
        const { bound } = found.levels[at]!
        const says = `problem ${seed}, level ${at}`
        if (level.sense === 'max') expect(bound, says).toBeGreaterThanOrEqual(best - 1e-9)
        else expect(bound, says).toBeLessThanOrEqual(best + 1e-9)
      }
    }
    expect(open).toBeGreaterThan(50)
  }, 240_000)

  it.each(PUBLISHED)('solves $name', ({ gains, sense, best, columns }) => {
    const found = solveByBranching(assignmentProblem(gains, sense), UNBOUNDED)
    expect(found.levels.map(({ value }) => value)).toEqual([gains.length, best])
    expect(found.pairs).toEqual(columns.map((column, row) => `${row},${column}`))
  })

  it('places as many of Kuhn’s four as can be qualified', () => {
    const jobs = [[1, 2, 3], [3, 4], [4], [4]]
    const pairs = jobs.flatMap((list, one) =>
      list.map((job) => ({ id: `${one},${job}`, wanted: `${one}`, place: `${job}` })),
    )
    const found = solveByBranching(
      {
        kind: 'retests',
        wanted: jobs.map((_, one) => ({ id: `${one}` })),
        places: [1, 2, 3, 4].map((job) => ({ id: `${job}` })),
        pairs,
        atMost: [],
        levels: [{ name: 'placed', sense: 'max', constant: 0, terms: pairs.map(({ id }) => [id, 1]) }],
      },
      UNBOUNDED,
    )
    expect(found.levels).toEqual([{ name: 'placed', value: 3, bound: 3 }])
  })

  it('places no fewer with one more place, and the same whatever things are called', () => {
    for (let seed = 0; seed < 500; seed++) {
      const problem = randomProblem(seed, { wanted: 6, places: 5, density: 0.5, sets: 3 })
      const placedFirst = { ...problem, levels: problem.levels.filter(({ name }) => name === 'placed') }
      const before = solveByBranching(placedFirst, UNBOUNDED).levels[0]!.value
      const next = seeded(seed)
      const more = problem.wanted
        .filter(() => next() < 0.5)
        .map(({ id }) => ({ id: `more ${id}`, wanted: id, place: 'more' }))
      const levels: PlanProblem['levels'] = [
        { name: 'placed', sense: 'max', constant: 0, terms: [...problem.pairs, ...more].map(({ id }) => [id, 1]) },
      ]
      const wider = {
        ...problem,
        places: [...problem.places, { id: 'more' }],
        pairs: [...problem.pairs, ...more],
        levels,
      }
      expect(solveByBranching(wider, UNBOUNDED).levels[0]!.value).toBeGreaterThanOrEqual(before)

      const renamed: PlanProblem = {
        ...problem,
        wanted: problem.wanted.map(({ id }) => ({ id: `soldier ${id}` })),
        pairs: problem.pairs.map((pair) => ({ ...pair, wanted: `soldier ${pair.wanted}` })),
      }
      expect(solveByBranching(renamed, UNBOUNDED)).toEqual(solveByBranching(problem, UNBOUNDED))
    }
  })

  it('answers with what holds when it is told to stop at once', () => {
    const problem = randomProblem(7, { wanted: 6, places: 6, density: 1, sets: 3 })
    const found = solveByBranching(problem, { mostBranches: 0, shouldStop: () => true })
    expect(found.isProved).toBe(false)
    expect(judgeAnswer(problem, found.pairs).broken).toEqual([])
  })
})
