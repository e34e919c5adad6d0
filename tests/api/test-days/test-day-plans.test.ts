import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CeremonyDetail, CeremonySummary } from '../../../server/contract/ceremonies/ceremonies.ts'
import type { TestDay } from '../../../server/contract/test-days/test-days.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { carryOver, type Ground, makeGround, makeSoldier, makeTestSetting, putSheet } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'

let test: TestApp
let ground: Ground
beforeAll(async () => {
  test = await buildTestApp()
  ground = await makeGround(test.office)
})
afterAll(() => test.close())

const NOBODY = '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11'
const post = (place: number, more: object = {}) => ({
  title: `Post ${place}`,
  row: 1,
  place,
  certification: ground.certification,
  ...more,
})
const ceremony = (more: object = {}) => ({
  title: 'Review',
  place: 'Parade field',
  unitId: ground.unitId,
  startsAt: '2026-07-04T10:00:00Z',
  endsAt: '2026-07-04T11:30:00Z',
  posts: [post(1)],
  ...more,
})

describe('a ceremony', () => {
  it('shows its posts as they form up, and who cannot stand there and why', async () => {
    const { office } = test
    const { unitId, certification } = ground
    const certified = await makeSoldier(office, unitId, { grade: 'SGT' })
    await carryOver(office, certified, certification)
    const [other, gone, suspended] = [
      await makeSoldier(office, unitId, { grade: 'PVT' }),
      await makeSoldier(office, unitId),
      await makeSoldier(office, unitId),
    ]
    for (const id of [gone, suspended]) await carryOver(office, id, certification)
    await office.post(`/api/soldiers/${gone}/changes`, { from: '2026-07-04', left: 'transferred' }, 200)
    await office.post('/api/suspensions', {
      soldierId: suspended,
      certification,
      from: '2026-07-01',
      reason: 'Inquiry',
    })
    const posts = [
      post(2, { row: 2, soldierId: suspended }),
      post(1, { soldierId: certified, arm: 'sword', grades: ['SGT'] }),
      post(2, { soldierId: other, arm: 'saber', grades: ['SGT'] }),
      post(1, { row: 2, soldierId: gone }),
      post(3, { row: 2 }),
    ]
    const { id } = await office.post('/api/ceremonies', ceremony({ posts }))
    const { formation, ...head } = await office.get<CeremonyDetail>(`/api/ceremonies/${id}`)
    const { posts: _, ...given } = ceremony()
    expect(head).toEqual({
      id,
      ...given,
      reportsAt: given.startsAt,
      day: '2026-07-04',
      minutesBefore: 0,
      minutesAfter: 0,
      notes: '',
      version: 1,
      cancelReason: null,
      may: 'plan',
      rehearsals: [],
      alternates: [],
      posts: 5,
      filled: 1,
    })
    expect(
      formation.map(({ row, place, soldier }) => [
        row,
        place,
        soldier?.id ?? null,
        soldier?.whyNot.map(({ reason }) => reason) ?? null,
      ]),
    ).toEqual([
      [1, 1, certified, []],
      [1, 2, other, ['not certified', 'wrong arm', 'wrong grade']],
      [2, 1, gone, ['not in strength']],
      [2, 2, suspended, ['suspended']],
      [2, 3, null, null],
    ])
  })

  it('is refused where it cannot be', async () => {
    const soldierId = await makeSoldier(test.office, ground.unitId)
    const wrong: [object, string][] = [
      [{ endsAt: '2026-07-04T10:00:00Z' }, '/endsAt'],
      [{ unitId: NOBODY }, '/unitId'],
      [{ posts: [] }, '/posts'],
      [{ posts: [post(1), post(1)] }, '/posts/1/place'],
      [{ posts: [post(1, { certification: 'nothing' })] }, '/posts/0/certification'],
      [{ posts: [post(1, { soldierId: NOBODY })] }, '/posts/0/soldierId'],
      [{ posts: [post(0)] }, '/posts/0/place'],
    ]
    const before = await countRows(test)
    for (const [change, pointer] of wrong) {
      const problem = await test.office.refused(422, 'POST', '/api/ceremonies', ceremony(change))
      expect(problem.errors, JSON.stringify(change)).toMatchObject([{ pointer }])
    }
    const twice = ceremony({ posts: [post(1, { soldierId }), post(2, { soldierId })] })
    const named = await test.office.refused(422, 'POST', '/api/ceremonies', twice)
    expect(named.type).toBe('urn:reviewstand:problem:named-twice')
    expect(await countRows(test)).toEqual(before)
  })

  it('is listed from a day on, in order of time, in pages', async () => {
    for (const hour of ['09', '10', '10', '12']) {
      await test.office.post(
        '/api/ceremonies',
        ceremony({ startsAt: `2026-08-01T${hour}:00:00Z`, endsAt: '2026-08-01T13:00:00+00:00' }),
      )
    }
    await test.office.post(
      '/api/ceremonies',
      ceremony({ startsAt: '2026-05-01T10:00:00Z', endsAt: '2026-05-01T11:00:00Z' }),
    )
    const list = (query: string, limit = 500) =>
      pagesOf<CeremonySummary>(test.office, `/api/ceremonies?${query}`, limit)
    const all = await list('from=2026-08-01')
    expect(all.map(({ startsAt }) => startsAt.slice(11, 13))).toEqual(['09', '10', '10', '12'])
    for (const limit of [1, 3]) expect(await list('from=2026-08-01', limit)).toEqual(all)
    expect((await list('')).every(({ day }) => day >= '2026-06-15')).toBe(true)
    expect(await list('from=2026-08-02')).toEqual([])
  })
})

describe('test days', () => {
  it('are listed latest first with how many sheets were taken, in pages', async () => {
    const { unitId } = ground
    const days = ['2026-03-02', '2026-04-01', '2026-04-01', '2026-02-01']
    const ids: string[] = []
    for (const on of days) ids.push((await test.office.post('/api/test-days', { on, unitId, place: 'Field' })).id)
    const setting = await makeTestSetting(test.office, ground)
    await putSheet(test.office, setting.sheet({ testDayId: ids[0]! }))
    const list = (limit: number) => pagesOf<TestDay>(test.office, '/api/test-days', limit)
    const all = await list(500)
    expect(all.map(({ on }) => on)).toEqual([...days].sort().reverse())
    const none = { slots: 0, freeSlots: 0, bookings: 0, calledOff: null }
    const first = { id: ids[0], on: days[0], unitId, place: 'Field', sheets: 1, ...none }
    expect(all.find(({ id }) => id === ids[0])).toEqual(first)
    for (const limit of [1, 3]) expect(await list(limit)).toEqual(all)
  })

  it('are refused in no unit and on no day', async () => {
    const wrong: [object, string][] = [
      [{ on: '2026-02-30', unitId: ground.unitId }, '/on'],
      [{ on: '2026-03-01', unitId: NOBODY }, '/unitId'],
    ]
    for (const [body, pointer] of wrong) {
      expect((await test.office.refused(422, 'POST', '/api/test-days', body)).errors).toMatchObject([{ pointer }])
    }
  })
})
