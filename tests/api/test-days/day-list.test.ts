import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { DayList, Identified } from '../../../server/contract/test-days/day-list.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeSoldier, makeStandard, makeTestSetting, type TestSetting } from '../../support/factories.ts'

let test: TestApp
let setting: TestSetting
let grader: Client
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z' })
  setting = await makeTestSetting(test.office)
  grader = await signedIn(['grader'], setting.graderId)
})
afterAll(() => test?.close())

const planned = async (on: string): Promise<string> =>
  (await test.office.post('/api/test-days', { on, unitId: setting.unitId, place: 'South field' })).id

let accounts = 0
const signedIn = (roles: ('grader' | 'sponsor' | 'leader')[], soldierId: string | null) =>
  test.signedIn({
    name: `field-${++accounts}`,
    roles,
    soldierId,
    unitId: roles.includes('leader') ? setting.unitId : null,
  })

describe('the day list of a grader', () => {
  it('has what is booked with them from today on for a week, with candidate, sponsor and the whole standard', async () => {
    const { candidateId, sponsorId, graderId, standard } = setting
    const [today, nextWeek, later, before] = await Promise.all(
      ['2026-06-17', '2026-06-24', '2026-06-25', '2026-06-16'].map(planned),
    )
    for (const [testDay, startsAt] of [
      [today, '2026-06-17T15:30:00Z'],
      [nextWeek, null],
      [later, null],
      [before, null],
    ]) {
      await test.office.post(`/api/test-days/${testDay}/bookings`, { candidateId, standard, graderId, startsAt })
    }
    const other = await makeSoldier(test.office, setting.unitId)
    await test.office.post(`/api/test-days/${today}/bookings`, { candidateId: other, standard, graderId: sponsorId })
    const list = await grader.get<DayList>('/api/day-list')
    expect(list).toMatchObject({ today: '2026-06-17', at: '2026-06-17T14:00:00.000Z', coached: [] })
    expect(list.bookings.map(({ on, startsAt }) => [on, startsAt])).toEqual([
      ['2026-06-17', '2026-06-17T15:30:00Z'],
      ['2026-06-24', null],
    ])
    expect(list.bookings[0]).toMatchObject({
      testDayId: today,
      place: 'South field',
      standard,
      state: 'booked',
      asSecond: false,
      candidate: { id: candidateId, grade: 'SGT', familyName: 'Ashford', sponsor: { id: sponsorId } },
    })
    const own = list.standards.find(({ code }) => code === standard)
    expect(own?.calls.length).toBeGreaterThan(0)
    expect(own?.publishedAt).not.toBeNull()
    expect(list.retests.filter((one) => one.standard === standard)).toEqual([
      { standard, arms: [], terms: [{ effectiveFrom: '2020-01-01', waitDays: 7, dueDays: 30 }] },
    ])
  })

  it('has every version that is in force on one of its days, and no other', async () => {
    const code = await makeStandard(test.office, { version: 1, effectiveFrom: '2025-01-01' })
    for (const [version, effectiveFrom] of [
      [2, '2026-06-20'],
      [3, '2026-08-01'],
    ] as const) {
      await makeStandard(test.office, { code, version, effectiveFrom })
    }
    const list = await grader.get<DayList>('/api/day-list')
    expect(list.standards.filter((one) => one.code === code).map(({ version }) => version)).toEqual([1, 2])
  })

  it('is a sponsor’s candidates for practice, and empty for who neither grades nor coaches', async () => {
    const list = await (await signedIn(['sponsor'], setting.sponsorId)).get<DayList>('/api/day-list')
    expect(list.coached.map(({ id }) => id)).toEqual([setting.candidateId])
    expect(list.bookings).toEqual([])
    const leader = await (await signedIn(['leader'], null)).get<DayList>('/api/day-list')
    expect(leader).toMatchObject({ bookings: [], coached: [], standards: [], retests: [] })
  })
})

describe('somebody tested without a booking', () => {
  it('is found by roster number and family name together, with the sponsor of that day', async () => {
    const id = await makeSoldier(test.office, setting.unitId, { rosterNumber: 'W-12', familyName: 'Nwosu' })
    await test.office.post(`/api/soldiers/${id}/sponsorships`, { sponsorId: setting.sponsorId, from: '2026-06-10' })
    const asked = { rosterNumber: ' W-12', familyName: 'NWOSU ', on: '2026-06-17' }
    const found = await grader.post<Identified>('/api/soldiers/identify', asked, 200)
    expect(found).toMatchObject({ id, sponsor: { id: setting.sponsorId } })
    // However somebody writes it down in the rain.
    for (const rosterNumber of ['w12', 'W 12', 'w-1 2']) {
      const forgiven = await grader.post<Identified>('/api/soldiers/identify', { ...asked, rosterNumber }, 200)
      expect(forgiven.id).toBe(id)
    }
    const earlier = await grader.post<Identified>('/api/soldiers/identify', { ...asked, on: '2026-06-09' }, 200)
    expect(earlier).toEqual({ id, sponsor: null })
  })

  it('is the one with exactly this number where another one reads alike, and nobody where both only read alike', async () => {
    const [one, two] = [
      await makeSoldier(test.office, setting.unitId, { rosterNumber: '20-77', familyName: 'Ashby' }),
      await makeSoldier(test.office, setting.unitId, { rosterNumber: '207-7', familyName: 'Ashby' }),
    ]
    const ask = (rosterNumber: string) => ({ rosterNumber, familyName: 'ashby', on: '2026-06-17' })
    for (const [number, id] of [['20-77', one] as const, ['207-7', two] as const]) {
      expect((await grader.post<Identified>('/api/soldiers/identify', ask(number), 200)).id).toBe(id)
    }
    await grader.refused(404, 'POST', '/api/soldiers/identify', ask('2077'))
  })

  it('is not told to who has only one of the two', async () => {
    await grader.refused(404, 'POST', '/api/soldiers/identify', {
      rosterNumber: 'W-12',
      familyName: 'Nwos',
      on: '2026-06-17',
    })
    await grader.refused(404, 'POST', '/api/soldiers/identify', {
      rosterNumber: 'W-1',
      familyName: 'Nwosu',
      on: '2026-06-17',
    })
  })
})
