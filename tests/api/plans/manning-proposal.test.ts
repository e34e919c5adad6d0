import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import type { ManningProposal } from '../../../server/contract/plans/manning.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, type Ground, makeGround, makeSoldier, makeTestSetting, makeUnit } from '../../support/factories.ts'

let app: TestApp
let ground: Ground
let leader: Client
/** Certified soldiers of the unit, beside the sponsor and the grader: by how often they stood. */
let fresh: string
let busy: string
let away: string
/** Could be certified in time. */
let candidate: string

const propose = (id: string, client = leader) => client.get<ManningProposal>(`/api/ceremonies/${id}/proposal`)
const read = (id: string) => app.office.get<CeremonyDetail>(`/api/ceremonies/${id}`)

const plan = async (day: string, posts: object[], more: object = {}) =>
  (
    await app.office.post('/api/ceremonies', {
      title: `Review of ${day}`,
      unitId: ground.unitId,
      startsAt: `${day}T10:00:00Z`,
      endsAt: `${day}T11:00:00Z`,
      posts,
      ...more,
    })
  ).id

const sentry = (place: number, more: object = {}) => ({
  title: `Sentry ${place}`,
  row: 2,
  place,
  certification: ground.certification,
  grades: ['PFC'],
  ...more,
})

/** On 15 June 2026: three PFCs certified, one of them on leave over the 27th, one to be tested, and two sergeants. */
beforeAll(async () => {
  app = await buildTestApp()
  const { office } = app
  ground = await makeGround(office)
  const soldier = async (isCertified: boolean) => {
    const id = isCertified
      ? await makeSoldier(office, ground.unitId, { grade: 'PFC' })
      : (await makeTestSetting(office, ground)).candidateId
    if (isCertified) await carryOver(office, id, ground.certification)
    return id
  }
  fresh = await soldier(true)
  busy = await soldier(true)
  away = await soldier(true)
  candidate = await soldier(false)
  await office.post(`/api/soldiers/${candidate}/changes`, { from: '2026-01-02', grade: 'PFC' }, 200)
  await office.post(`/api/soldiers/${away}/absences`, { from: '2026-06-26', through: '2026-06-28', kind: 'leave' })
  await office.post('/api/test-days', { on: '2026-06-20', unitId: ground.unitId, place: 'Hall' })
  await plan('2026-06-19', [sentry(1, { soldierId: busy })])
  leader = await app.signedIn({ name: 'leader', roles: ['leader'], unitId: ground.unitId })
})
afterAll(() => app.close())

describe('the proposal for a ceremony', () => {
  test('names who stood least, keeps who can stand, and is taken by naming', async () => {
    const id = await plan('2026-06-30', [sentry(1), sentry(2, { soldierId: away }), sentry(3, { grades: ['SGT'] })])
    const found = await propose(id)
    expect(found).toMatchObject({ open: 2, short: [], fair: { least: 0, most: 0 } })
    const { formation, version } = await read(id)
    const titles = new Map(formation.map((post) => [post.id, post.title]))
    const named = new Map(found.posts.map(({ postId, soldier }) => [titles.get(postId), soldier.soldierId]))
    expect(named.get('Sentry 1')).toBe(fresh)
    expect([ground.sponsorId, ground.graderId]).toContain(named.get('Sentry 3'))
    expect(found.alternates.map(({ soldierId }) => soldierId)).not.toContain(away)
    expect(found.alternates).toHaveLength(1)

    const names = found.posts.map(({ postId, soldier }) => ({ postId, soldierId: soldier.soldierId }))
    expect(found.version).toBe(version)
    await leader.post(`/api/ceremonies/${id}/name`, { version, names }, 200)
    expect((await read(id)).filled).toBe(3)
    expect(await propose(id)).toMatchObject({ open: 0, posts: [], short: [], fair: null })
  })

  test('says which posts compete for too few, and who would end it by what', async () => {
    const id = await plan('2026-06-27', [sentry(1), sentry(2), sentry(3), sentry(4, { grades: ['SGT'] })])
    const found = await propose(id)
    expect(found.posts).toHaveLength(3)
    const [short] = found.short
    expect(found.short).toHaveLength(1)
    expect(short!.soldiers.map(({ soldierId }) => soldierId).sort()).toEqual([fresh, busy].sort())
    const numbers = short!.soldiers.map(({ rosterNumber }) => rosterNumber)
    expect(numbers).toEqual([...numbers].sort())
    const { formation } = await read(id)
    const titles = formation.filter((post) => short!.posts.includes(post.id)).map(({ title }) => title)
    expect(titles).toEqual(['Sentry 1', 'Sentry 2', 'Sentry 3'])
    expect(short!.wouldHelp).toEqual([
      expect.objectContaining({ soldierId: candidate, by: 'test', until: '' }),
      expect.objectContaining({ soldierId: away, by: 'absence', until: 'leave', tests: [], pass: null }),
    ])
    const [helper] = short!.wouldHelp
    expect(helper!.tests).toMatchObject([{ standard: ground.standard, on: '2026-06-20', booked: false }])
    expect(helper!.pass).toBe(helper!.tests[0]!.pass)
    expect(helper!.pass).toBeGreaterThan(0)
  })

  test('two at one hour compete: whoever is named at one is not proposed for the other', async () => {
    const first = await plan('2026-07-04', [sentry(1), sentry(2)])
    const second = await plan('2026-07-04', [sentry(1), sentry(2)])
    const found = await propose(first)
    const names = found.posts.map(({ postId, soldier }) => ({ postId, soldierId: soldier.soldierId }))
    await leader.post(`/api/ceremonies/${first}/name`, { version: found.version, names }, 200)
    const other = await propose(second)
    expect(other.posts).toHaveLength(1)
    const taken = new Set(names.map(({ soldierId }) => soldierId))
    expect(taken.has(other.posts[0]!.soldier.soldierId)).toBe(false)
    expect(other.short[0]!.wouldHelp.filter(({ by }) => by === 'duty').map(({ until }) => until)).toEqual([
      'Review of 2026-07-04',
      'Review of 2026-07-04',
    ])
  })

  test('is of soldiers whom the account may name, and touches no post of another unit', async () => {
    const platoon = await makeUnit(app.office, { kind: 'platoon', parentId: ground.unitId })
    const own = await makeSoldier(app.office, platoon, { grade: 'PFC' })
    await carryOver(app.office, own, ground.certification)
    const below = await app.signedIn({ name: 'below', roles: ['leader'], unitId: platoon })
    const id = await plan('2026-06-27', [sentry(1), sentry(2, { soldierId: away })], { unitId: ground.unitId })
    const found = await propose(id, below)
    expect(found.posts.map(({ soldier }) => soldier.soldierId)).toEqual([own])
    expect(found).toMatchObject({ open: 1, alternates: [] })
    expect(JSON.stringify(found)).not.toContain(away)
  })

  test('of one called off there is none', async () => {
    const id = await plan('2026-08-01', [sentry(1)])
    await app.office.post(`/api/ceremonies/${id}/cancel`, { version: 1, reason: 'Rain' }, 200)
    expect(await propose(id)).toMatchObject({ open: 0, posts: [], alternates: [], short: [] })
  })
})
