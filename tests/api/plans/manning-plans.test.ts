import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import type { Plan } from '../../../server/contract/plans/plans.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, type Ground, makeGround, makeSoldier, makeUnit } from '../../support/factories.ts'
import { solvedPlan } from '../../support/plans/solved-plan.ts'

let app: TestApp
let ground: Ground
let leader: Client
let sentries: string[]

const asked = (day: string) => ({ kind: 'manning', unitId: ground.unitId, from: day, to: day })
const read = (id: string) => app.office.get<CeremonyDetail>(`/api/ceremonies/${id}`)

/** A ceremony of an hour with posts for PFCs. */
const plan = async (startsAt: string, posts: number, named: (string | null)[] = []) => {
  const { id } = await app.office.post('/api/ceremonies', {
    title: `Review at ${startsAt}`,
    unitId: ground.unitId,
    startsAt,
    endsAt: new Date(Date.parse(startsAt) + 3_600_000).toISOString(),
    posts: Array.from({ length: posts }, (_, at) => ({
      title: `Sentry ${at + 1}`,
      row: 1,
      place: at + 1,
      certification: ground.certification,
      grades: ['PFC'],
      soldierId: named[at] ?? null,
    })),
  })
  return String(id)
}

/** On 15 June 2026: four certified PFCs. */
beforeAll(async () => {
  app = await buildTestApp()
  ground = await makeGround(app.office)
  sentries = []
  for (let n = 0; n < 4; n++) {
    const id = await makeSoldier(app.office, ground.unitId, { grade: 'PFC' })
    await carryOver(app.office, id, ground.certification)
    sentries.push(id)
  }
  leader = await app.signedIn({ name: 'leader', roles: ['leader'], unitId: ground.unitId })
})
afterAll(() => app.close())

describe('a manning plan', () => {
  it('mans all ceremonies of a period, nobody in two at once, and is accepted and undone', async () => {
    const day = '2026-06-20'
    const ids = [
      await plan(`${day}T10:00:00Z`, 2),
      await plan(`${day}T10:30:00Z`, 3),
      await plan(`${day}T15:00:00Z`, 4),
    ]
    const { id, plan: made, problem, answer } = await solvedPlan(leader, asked(day))
    expect(made.levels.slice(0, 3)).toEqual([
      { name: 'posts filled', value: 8, bound: 8 },
      { name: 'names changed', value: 0, bound: 0 },
      { name: 'fair', value: 16, bound: 16 },
    ])
    expect(problem.places.every(({ id: place }) => place.includes('@'))).toBe(true)
    expect(answer.short).toHaveLength(1)
    expect(answer.short[0]!.soldiers).toEqual([...sentries].sort())
    expect(answer.unplaced.map(({ reason }) => reason)).toContain('too few soldiers')
    expect(await leader.post('/api/plans', asked(day), 200)).toEqual({ id })

    const posts = answer.pairs.filter((pair) => {
      const { wanted } = problem.pairs.find((one) => one.id === pair)!
      return problem.wanted.find((one) => one.id === wanted)!.kind === 'post'
    })
    expect(await leader.post(`/api/plans/${id}/accept`, { pairs: posts }, 200)).toMatchObject({ named: 8 })
    const filled = async () => (await Promise.all(ids.map(read))).map((ceremony) => ceremony.filled)
    expect((await filled()).reduce((sum, n) => sum + n, 0)).toBe(8)
    expect((await leader.get<Plan>(`/api/plans/${id}`)).accepted).toHaveLength(8)
    const [first] = (await read(ids[2]!)).formation
    const { version } = await read(ids[2]!)
    await leader.post(
      `/api/ceremonies/${ids[2]}/name`,
      { version, names: [{ postId: first!.id, soldierId: null }] },
      200,
    )
    expect(await leader.post(`/api/plans/${id}/undo`, undefined, 200)).toEqual({ undone: 7, left: 1 })
    expect(await filled()).toEqual([0, 0, 0])
    await leader.refused(409, 'POST', `/api/plans/${id}/undo`)
  })

  it('says what changed, and names nobody where something of it does not hold', async () => {
    const day = '2026-06-22'
    const ceremony = await plan(`${day}T10:00:00Z`, 2)
    const { id, answer, problem } = await solvedPlan(leader, asked(day))
    const { version, formation } = await read(ceremony)
    const chosen = problem.pairs.find((pair) => pair.wanted === formation[0]!.id && answer.pairs.includes(pair.id))!
    const other = sentries.find(
      (soldier) =>
        !answer.pairs.some((pair) => problem.pairs.find((one) => one.id === pair)!.place.startsWith(soldier)),
    )!
    await leader.post(
      `/api/ceremonies/${ceremony}/name`,
      { version, names: [{ postId: chosen.wanted, soldierId: other }] },
      200,
    )
    const stale = await leader.get<Plan>(`/api/plans/${id}`)
    expect(stale).toMatchObject({ state: 'stale', changed: ['Sentry 1 is filled, or is no post any more.'] })
    const refused = await leader.refused(409, 'POST', `/api/plans/${id}/accept`, { pairs: 'all' })
    expect(refused.errors!.map(({ detail }) => detail)).toContain('Sentry 1: somebody else was named meanwhile.')
    expect((await read(ceremony)).filled).toBe(1)
  })

  it('is undone for a soldier who was entered twice and is one now', async () => {
    const day = '2026-06-24'
    const ceremony = await plan(`${day}T10:00:00Z`, 1)
    const { id, answer } = await solvedPlan(leader, asked(day))
    await leader.post(`/api/plans/${id}/accept`, { pairs: answer.pairs }, 200)
    const [named] = (await read(ceremony)).formation
    const keptId = await makeSoldier(app.office, ground.unitId, { grade: 'PFC' })
    const awayId = named!.soldier!.id
    await app.office.post(`/api/soldiers/${keptId}/merges`, { awayId, reason: 'Entered twice' })
    expect((await read(ceremony)).formation[0]!.soldier!.id).toBe(keptId)
    expect((await leader.get<Plan>(`/api/plans/${id}`)).accepted).toEqual([...answer.pairs].sort())
    const undone = await leader.post<{ undone: number; left: number }>(`/api/plans/${id}/undo`, undefined, 200)
    expect(undone).toEqual({ undone: answer.pairs.length, left: 0 })
    expect((await read(ceremony)).formation[0]!.soldier).toBeNull()
    sentries = [...sentries.filter((one) => one !== awayId), keptId]
  })

  it('is for who plans the unit’s ceremonies', async () => {
    const platoon = await makeUnit(app.office, { kind: 'platoon', parentId: ground.unitId })
    const below = await app.signedIn({ name: 'below', roles: ['leader'], unitId: platoon })
    await below.refused(403, 'POST', '/api/plans', asked('2026-06-20'))
    const grader = await app.signedIn({ name: 'grader', roles: ['grader'], soldierId: ground.graderId })
    await grader.refused(403, 'POST', '/api/plans', asked('2026-06-20'))
  })
})
