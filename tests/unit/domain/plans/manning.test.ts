import { describe, expect, it } from 'vitest'
import { createRandom, type Random } from '../../../../seed/generate/random.ts'
import type { SoldierFacts } from '../../../../server/domain/manning/types.ts'
import { judgeAnswer } from '../../../../server/domain/plans/judge-answer.ts'
import {
  type CeremonyToMan,
  type ManningFacts,
  manningProblem,
} from '../../../../server/domain/plans/manning/manning-problem.ts'
import { shortSets } from '../../../../server/domain/plans/manning/short-sets.ts'
import { solveManning } from '../../../../server/domain/plans/manning/solve-manning.ts'
import { bestByTrying } from '../../../support/plans/best-by-trying.ts'
import { manningSized } from '../../../support/plans/manning-sized.ts'

const PROBLEMS = 2_000
const HOUR = 3_600_000

const able = (more: Partial<SoldierFacts>): SoldierFacts => ({
  grade: 'SGT',
  arms: ['sword'],
  heightCm: null,
  status: 'certified',
  validThrough: '2027-01-01',
  missing: [],
  certifiedAt: null,
  absences: [],
  duties: [],
  ...more,
})

/** Up to three ceremonies of up to three posts, up to four soldiers of two grades, some named, some at one time. */
function drawFacts(random: Random): ManningFacts {
  const soldiers = Array.from({ length: random.integer(1, 4) }, (_, at) => ({
    id: `s${at}`,
    stood: random.integer(0, 3),
    heightCm: random.pick([null, 170, 175, 180, 185]),
  }))
  const grades = new Map(soldiers.map(({ id }) => [id, random.pick(['PFC', 'SGT'])]))
  const ceremonies = Array.from({ length: random.integer(1, 3) }, (_, nth): CeremonyToMan => {
    const free = random.shuffle(soldiers.map(({ id }) => id))
    const posts = Array.from({ length: random.integer(1, 3) }, (__, at) => ({
      id: `c${nth}p${at}`,
      title: `Post ${at}`,
      row: random.integer(1, 2),
      certification: random.pick(['sword', 'rifle']),
      soldierId: random.chance(0.2) ? (free.pop() ?? null) : null,
      arm: null,
      grades: random.pick([null, ['PFC'], ['SGT']]),
      minHeightCm: random.pick([null, null, 172]),
      maxHeightCm: null,
    }))
    const from = random.integer(0, 5) * HOUR
    return {
      id: `c${nth}`,
      occasion: { reportsAt: from, times: [{ at: 'ceremony', day: '2026-12-01', from, to: from + 2 * HOUR }] },
      posts,
      alternates: random.chance(0.1) ? [free.pop()].filter((id) => id !== undefined) : [],
      alternatesWanted: random.integer(0, 1),
    }
  })
  const certified = new Set(
    soldiers.flatMap(({ id }) => ['sword', 'rifle'].filter(() => random.chance(0.7)).map((code) => `${id} ${code}`)),
  )
  return {
    ceremonies,
    soldiers,
    letGo: random.chance(0.3),
    factsOf: (_, id, code) =>
      able({
        grade: grades.get(id)!,
        heightCm: soldiers.find((one) => one.id === id)!.heightCm,
        status: certified.has(`${id} ${code}`) ? 'certified' : 'no test yet',
      }),
  }
}

describe('manning', () => {
  it(`is as good in every level as the best of all answers, in ${PROBLEMS} drawn problems`, () => {
    const random = createRandom(21)
    const seen = { filled: 0, clashing: 0, short: 0, several: 0 }
    for (let n = 0; n < PROBLEMS; n++) {
      const problem = manningProblem(drawFacts(random))
      const { pairs, levels } = solveManning(problem)
      const { broken, values } = judgeAnswer(problem, pairs)
      const best = bestByTrying(problem)
      expect(broken).toEqual([])
      expect(levels.map(({ value }) => value)).toEqual(values)
      expect(values.slice(0, 4), JSON.stringify(problem)).toEqual(best.slice(0, 4))
      expect(levels.slice(0, 4).map(({ bound }) => bound)).toEqual(best.slice(0, 4))
      // Alternates are found among who is left: never more than could be, and the bound says so.
      expect(values[4]).toBeLessThanOrEqual(best[4]!)
      expect(levels[4]!.bound).toBeGreaterThanOrEqual(best[4]!)
      seen.filled += values[0]! > 0 ? 1 : 0
      seen.clashing += problem.atMost.length > 0 ? 1 : 0
      seen.several += new Set(problem.wanted.map(({ ceremony }) => ceremony)).size > 1 ? 1 : 0
      for (const { posts, soldiers } of shortSets(problem, pairs)) {
        if (problem.atMost.length > 0) continue
        seen.short += 1
        expectSmallest(problem, posts, soldiers)
      }
    }
    expect(seen.filled).toBeGreaterThan(PROBLEMS / 2)
    expect(seen.clashing).toBeGreaterThan(PROBLEMS / 100)
    expect(seen.short).toBeGreaterThan(PROBLEMS / 4)
    expect(seen.several).toBeGreaterThan(PROBLEMS / 4)
  })

  it('of the size it is made for fills every post, proved, with nobody in two places', () => {
    const problem = manningProblem(manningSized(1, { ceremonies: 20, posts: 30, soldiers: 400 }))
    const { pairs, levels } = solveManning(problem)
    expect(judgeAnswer(problem, pairs).broken).toEqual([])
    expect(levels.map(({ value }) => value).slice(0, 2)).toEqual([600, 0])
    expect(levels.every(({ value, bound }) => value === bound)).toBe(true)
  })

  it('gives the same to soldiers of other names, and the same answer every time', () => {
    const random = createRandom(22)
    for (let n = 0; n < 200; n++) {
      const facts = drawFacts(random)
      const problem = manningProblem(facts)
      expect(solveManning(problem)).toEqual(solveManning(problem))
      const backwards = manningProblem({ ...facts, soldiers: facts.soldiers.toReversed() })
      expect(solveManning(backwards).levels.slice(0, 4)).toEqual(solveManning(problem).levels.slice(0, 4))
    }
  })
})

/** All who can take one of the posts are these soldiers, fewer than the posts; and no smaller set of them is short. */
function expectSmallest(
  problem: ReturnType<typeof manningProblem>,
  posts: readonly string[],
  soldiers: readonly string[],
) {
  const takersOf = (some: readonly string[]) =>
    new Set(problem.pairs.filter(({ wanted }) => some.includes(wanted)).map(({ place }) => place))
  const people = [...takersOf(posts)].map((place) => place.split('@')[0]!)
  expect([...new Set(people)].sort()).toEqual(soldiers)
  expect(takersOf(posts).size).toBeLessThan(posts.length)
  for (let set = 1; set < 2 ** posts.length - 1; set++) {
    const some = posts.filter((_, at) => (set >> at) & 1)
    expect(takersOf(some).size).toBeGreaterThanOrEqual(some.length)
  }
}
