import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { WalkIn } from '../../../server/contract/test-days/bookings.ts'
import type { DayList } from '../../../server/contract/test-days/day-list.ts'
import type { TestDayLine } from '../../../server/contract/test-days/running-tests.ts'
import type { Booking } from '../../../server/contract/test-days/test-days.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, type TestSetting } from '../../support/factories.ts'

let test: TestApp
let setting: TestSetting
let grader: Client
let stranger: Client
let testDayId: string
let bookingId: string

const ALL = { uniform: true, equipment: true, sponsorPresent: true }

beforeAll(async () => {
  test = await buildTestApp({ now: '2026-03-02T10:00:00Z' })
  setting = await makeTestSetting(test.office)
  const { candidateId, graderId, standard, unitId } = setting
  testDayId = (await test.office.post('/api/test-days', { on: '2026-03-02', unitId })).id
  bookingId = (await test.office.post(`/api/test-days/${testDayId}/bookings`, { candidateId, standard, graderId })).id
  grader = await test.signedIn({ name: 'grader', roles: ['grader'], soldierId: graderId })
  const strangerId = await makeSoldier(test.office, unitId)
  stranger = await test.signedIn({ name: 'stranger', roles: ['grader'], soldierId: strangerId })
})
afterAll(() => test?.close())

const lineOf = (client: Client) => client.get<TestDayLine>(`/api/test-days/${testDayId}/line`)
const bookingsOf = async (candidateId: string) =>
  (await test.office.get<{ items: Booking[] }>(`/api/bookings?candidateId=${candidateId}`)).items

describe('check-in', () => {
  it('by the grader keeps what was found, once, and shows it to whoever sees the line', async () => {
    const found = { ...ALL, uniform: false }
    for (let time = 0; time < 2; time++) {
      await grader.post(`/api/bookings/${bookingId}/mark`, { state: 'checked in', found }, 200)
    }
    const [booking] = (await lineOf(test.office)).bookings
    expect(booking).toMatchObject({ id: bookingId, state: 'checked in', checkIn: found, sponsorCertified: true })
    const list = await grader.get<DayList>('/api/day-list')
    expect(list.bookings).toMatchObject([
      { id: bookingId, state: 'checked in', checkIn: found, sponsorCertified: true },
    ])
    expect(list.testDays).toMatchObject([{ id: testDayId, on: '2026-03-02' }])
    await grader.post(`/api/bookings/${bookingId}/mark`, { state: 'booked', reason: 'Tapped in error' }, 200)
    expect((await lineOf(grader)).bookings).toMatchObject([{ state: 'booked', checkIn: null }])
  })

  it('is nothing to another grader, who is not told that there is such a booking', async () => {
    await stranger.refused(404, 'POST', `/api/bookings/${bookingId}/mark`, { state: 'checked in' })
    expect(await lineOf(stranger)).toEqual({ bookings: [], running: [], closed: [] })
  })

  it('lets a grader say no-show with a reason, and neither tested nor cancelled nor a day to come', async () => {
    const { candidateId, graderId, standard, unitId } = setting
    await grader.refused(422, 'POST', `/api/bookings/${bookingId}/mark`, { state: 'no-show' })
    await grader.refused(409, 'POST', `/api/bookings/${bookingId}/mark`, { state: 'tested', reason: 'Seen' })
    await grader.refused(403, 'POST', `/api/bookings/${bookingId}/cancel`, { reason: 'Rain' })
    const later = await test.office.post('/api/test-days', { on: '2026-03-09', unitId })
    const booked = { candidateId, standard, graderId }
    const { id } = await test.office.post(`/api/test-days/${later.id}/bookings`, booked)
    await grader.refused(409, 'POST', `/api/bookings/${id}/mark`, { state: 'no-show', reason: 'Not here' })
    await grader.post(`/api/bookings/${bookingId}/mark`, { state: 'no-show', reason: 'Not here' }, 200)
    await grader.refused(422, 'POST', `/api/bookings/${bookingId}/mark`, {
      state: 'excused',
      reason: 'Ill',
      found: ALL,
    })
  })
})

describe('a walk-in', () => {
  const body = (standard: string, more = {}) => ({
    rosterNumber: 'W-7',
    familyName: 'nwosu',
    standard,
    found: ALL,
    ...more,
  })
  let walkInId: string

  beforeAll(async () => {
    walkInId = await makeSoldier(test.office, setting.unitId, { rosterNumber: 'W-7', familyName: 'Nwosu' })
  })

  it('becomes a booking with the grader, checked in, once, whatever is repeated at once', async () => {
    await grader.refused(404, 'GET', `/api/soldiers/${walkInId}`)
    const id = randomUUID()
    const path = `/api/test-days/${testDayId}/walk-ins/${id}`
    const answers = await Promise.all(
      Array.from({ length: 4 }, () => grader.put<WalkIn>(path, body(setting.standard), 200)),
    )
    expect(new Set(answers.map((one) => one.id))).toEqual(new Set([id]))
    expect(await bookingsOf(walkInId)).toMatchObject([
      { id, graderId: setting.graderId, state: 'checked in', checkIn: ALL },
    ])
    await grader.get(`/api/soldiers/${walkInId}`)
    const again = await grader.put<WalkIn>(
      `/api/test-days/${testDayId}/walk-ins/${randomUUID()}`,
      body(setting.standard),
      200,
    )
    expect(again.id).toBe(id)
  })

  it('is refused where the grader does not grade that day, where nobody has both number and name, and onto others', async () => {
    const path = `/api/test-days/${testDayId}/walk-ins/${randomUUID()}`
    await stranger.refused(404, 'PUT', path, body(setting.standard))
    await grader.refused(404, 'PUT', path, body(setting.standard, { familyName: 'Nwos' }))
    await grader.refused(422, 'PUT', path, body('no-such-standard'))
    await grader.refused(422, 'PUT', path, body(setting.standard, { graderId: setting.sponsorId }))
    await test.office.refused(403, 'PUT', path, body(setting.standard))
    const strangerDay = (await test.office.post('/api/test-days', { on: '2026-03-02', unitId: setting.unitId })).id
    await grader.refused(404, 'PUT', `/api/test-days/${strangerDay}/walk-ins/${randomUUID()}`, body(setting.standard))
  })

  it('who is booked with another grader that day stays there', async () => {
    const bookedId = await makeSoldier(test.office, setting.unitId, { rosterNumber: 'W-8', familyName: 'Brandt' })
    const { standard, sponsorId } = setting
    await test.office.post(`/api/test-days/${testDayId}/bookings`, {
      candidateId: bookedId,
      standard,
      graderId: sponsorId,
    })
    const walkIn = body(standard, { rosterNumber: 'W-8', familyName: 'Brandt' })
    await grader.refused(409, 'PUT', `/api/test-days/${testDayId}/walk-ins/${randomUUID()}`, walkIn)
    await grader.refused(404, 'GET', `/api/soldiers/${bookedId}`)
  })
})
