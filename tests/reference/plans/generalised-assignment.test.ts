import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { judgeAnswer } from '../../../server/domain/plans/judge-answer.ts'
import type { PlanProblem } from '../../../server/domain/plans/problem.ts'
import { solveExactly } from '../../../server/plans/solver/solve-exactly.ts'

interface Instance {
  readonly name: string
  readonly agents: number
  readonly jobs: number
  readonly cost: number[][]
  readonly resource: number[][]
  readonly capacity: number[]
}

/*
 * Generalised assignment, OR-Library (J. E. Beasley, gapinfo.html): instances c515-1 and c515-2, with their published
 * optima where the gain is to be as large as can be; the least of the same by COIN-OR Dip, gap.opt.
 */
const OPTIMA = [
  { name: 'c515-1', sense: 'max', best: 336 },
  { name: 'c515-2', sense: 'max', best: 327 },
  { name: 'c515-1', sense: 'min', best: 261 },
  { name: 'c515-2', sense: 'min', best: 269 },
] as const

const FILE = new URL('../data/orlib_gap_c515_1_2.json', import.meta.url)
const INSTANCES = JSON.parse(readFileSync(FILE, 'utf8')) as Instance[]

describe('published optima of generalised assignment', () => {
  it.each(OPTIMA)(
    'reaches $best for $name ($sense)',
    async ({ name, sense, best }) => {
      const problem = asPlan(INSTANCES.find((one) => one.name === name)!, sense)
      const { pairs, levels } = await solveExactly(problem, { pairs: [], levels: [] }, 3600)
      expect(judgeAnswer(problem, pairs).broken).toEqual([])
      expect(levels).toMatchObject([
        { value: 15, bound: 15 },
        { value: best, bound: best },
      ])
    },
    300_000,
  )
})

/** Each agent is a place for each job; jobs that exceed what an agent has, and none of which can be left out, are an `atMost`. */
function asPlan({ agents, jobs, cost, resource, capacity }: Instance, sense: 'max' | 'min'): PlanProblem {
  const everyAgent = Array.from({ length: agents }, (_, agent) => agent)
  const everyJob = Array.from({ length: jobs }, (_, job) => job)
  const cells = everyAgent.flatMap((agent) => everyJob.map((job) => ({ agent, job, id: `${agent},${job}` })))
  const atMost = everyAgent.flatMap((agent) =>
    leastCovers(resource[agent]!, capacity[agent]!).map((cover) => ({
      pairs: cover.map((job) => `${agent},${job}`),
      max: cover.length - 1,
    })),
  )
  return {
    kind: 'retests',
    wanted: everyJob.map((job) => ({ id: `${job}` })),
    places: cells.map(({ id }) => ({ id })),
    pairs: cells.map(({ id, job }) => ({ id, wanted: `${job}`, place: id })),
    atMost,
    levels: [
      { name: 'placed', sense: 'max', constant: 0, terms: cells.map(({ id }) => [id, 1]) },
      { name: 'gain', sense, constant: 0, terms: cells.map(({ id, agent, job }) => [id, cost[agent]![job]!]) },
    ],
  }
}

/** Every set of jobs that is too much for a capacity while none of its parts is. */
function leastCovers(needs: readonly number[], capacity: number): number[][] {
  const covers: number[][] = []
  for (let set = 1; set < 2 ** needs.length; set++) {
    const jobs = needs.flatMap((_, job) => ((set >> job) & 1 ? [job] : []))
    const sum = jobs.reduce((total, job) => total + needs[job]!, 0)
    if (sum > capacity && jobs.every((job) => sum - needs[job]! <= capacity)) covers.push(jobs)
  }
  return covers
}
