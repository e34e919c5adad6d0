import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { BookingPlan, BulkBooking, CallOff, MadeBooking } from '../../../server/contract/test-days/bookings.ts'
import type { Booking, Slot, TestDayDetail } from '../../../server/contract/test-days/test-days.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import {
  carryOver,
  type Ground,
  makeGround,
  makeSoldier,
  makeTestSetting,
  makeUnit,
  putSheet,
} from '../../support/factories.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
let ground: Ground
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  ground = await makeGround(test.office)
})
afterAll(() => test.close())

const dayOf = (id: string) => test.office.get<TestDayDetail>(`/api/test-days/${id}`)
const bookingsOf = async (id: string) =>
  (await test.office.get<{ items: Booking[] }>(`/api/bookings?testDayId=${id}&state=all`)).items

/** A test day with slots of half an hour from eight on; graded by the grader of the ground unless told otherwise. */
async function makeDay(on: string, slots: number, graderIds: string[] = [ground.graderId]) {
  const { id } = await test.office.post('/api/test-days', { on, unitId: ground.unitId, place: 'Drill hall' })
  const to = `${String(8 + Math.floor(slots / 2)).padStart(2, '0')}:${slots % 2 ? '30' : '00'}`
  const body = { from: '08:00', to, minutes: 30, graderIds }
  const { items } = await test.office.post<{ items: Slot[] }>(`/api/test-days/${id}/slots`, body)
  return { id, slots: items }
}

/** A candidate with an open retest: NO-GO on a day. */
async function makeRetest(on = '2026-06-01') {
  const setting = await makeTestSetting(test.office, ground)
  await putSheet(test.office, setting.sheet({ ...times(on), ...NO_GO_MARKS }))
  return setting.candidateId
}

describe('slots', () => {
  it('are made for each grader, by the clock on the wall of the unit, with pauses', async () => {
    const { office } = test
    const unitId = await makeUnit(office, { timeZone: 'America/New_York' })
    const graderIds = [await makeSoldier(office, unitId), await makeSoldier(office, unitId)]
    const { id } = await office.post('/api/test-days', { on: '2026-07-01', unitId })
    const body = { from: '08:00', to: '10:00', minutes: 40, pause: 10, graderIds }
    const { items } = await office.post<{ items: Slot[] }>(`/api/test-days/${id}/slots`, body)
    expect(items.map(({ startsAt, endsAt }) => [startsAt, endsAt])).toEqual([
      ...Array(2).fill(['2026-07-01T12:00:00Z', '2026-07-01T12:40:00Z']),
      ...Array(2).fill(['2026-07-01T12:50:00Z', '2026-07-01T13:30:00Z']),
    ])
    expect(await dayOf(id)).toMatchObject({ slots: 4, freeSlots: 4, zone: 'America/New_York' })
    const [first] = items
    await office.tries('DELETE', `/api/slots/${first!.id}`)
    expect((await dayOf(id)).slots).toBe(3)
  })

  it('are refused where a grader would be at two places, also on another test day, and nothing is made', async () => {
    const { id } = await makeDay('2026-07-02', 2)
    const other = await test.office.post('/api/test-days', { on: '2026-07-02', unitId: ground.unitId })
    const body = { from: '08:45', to: '09:30', minutes: 45, graderIds: [ground.sponsorId, ground.graderId] }
    const problem = await test.office.refused(409, 'POST', `/api/test-days/${other.id}/slots`, body)
    expect(problem.detail).toMatch(/08:30 to 09:00.*Drill hall/)
    expect((await dayOf(other.id)).slots).toBe(0)
    await test.office.post(`/api/test-days/${other.id}/slots`, { ...body, from: '09:00', to: '09:45' })
    expect((await dayOf(id)).slots).toBe(2)
  })

  it('are refused where they cannot be', async () => {
    const { id } = await makeDay('2026-07-03', 2)
    const wrong: [object, string][] = [
      [{ from: '10:00', to: '09:00', minutes: 30 }, '/to'],
      [{ from: '09:00', to: '09:20', minutes: 30 }, '/minutes'],
      [{ from: '08:00', to: '25:00', minutes: 30 }, '/to'],
      [{ from: '00:00', to: '23:59', minutes: 5, graderIds: [ground.graderId, ground.sponsorId] }, '/minutes'],
      [{ from: '10:00', to: '11:00', minutes: 30, graderIds: [ground.graderId, ground.graderId] }, '/graderIds'],
      [{ from: '10:00', to: '11:00', minutes: 30, graderIds: ['8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11'] }, '/graderIds'],
    ]
    for (const [body, pointer] of wrong) {
      const problem = await test.office.refused(422, 'POST', `/api/test-days/${id}/slots`, body)
      expect(problem.errors, JSON.stringify(body)).toMatchObject([{ pointer }])
    }
  })
})

describe('a test day', () => {
  it('moves with its slots while nobody is booked, and keeps still afterwards', async () => {
    const { id, slots } = await makeDay('2026-07-06', 2)
    const change = (body: object) => test.office.tries('PATCH', `/api/test-days/${id}`, body)
    expect((await change({ on: '2026-07-07', place: 'Field' })).status).toBe(200)
    const moved = await dayOf(id)
    expect(moved).toMatchObject({ on: '2026-07-07', place: 'Field' })
    expect(moved.slotList.map(({ startsAt }) => startsAt)).toEqual(['2026-07-07T08:00:00Z', '2026-07-07T08:30:00Z'])
    const candidateId = await makeRetest()
    const body = { candidateId, standard: ground.standard, slotId: slots[0]!.id }
    const { id: bookingId } = await test.office.post(`/api/test-days/${id}/bookings`, body)
    expect((await change({ on: '2026-07-08' })).body).toMatchObject({
      type: 'urn:reviewstand:problem:day-has-bookings',
    })
    expect((await change({ place: 'Hall' })).status).toBe(200)
    await test.office.post(`/api/bookings/${bookingId}/mark`, { state: 'checked in' }, 200)
    expect((await change({ place: 'Field' })).body).toMatchObject({ type: 'urn:reviewstand:problem:day-took-place' })
    await test.office.refused(409, 'DELETE', `/api/slots/${slots[0]!.id}`)
  })
})

describe('a booking', () => {
  it('takes time and grader of its slot, and the slot’s new grader', async () => {
    const { id, slots } = await makeDay('2026-07-13', 2)
    const candidateId = await makeRetest()
    const body = { candidateId, standard: ground.standard, slotId: slots[1]!.id }
    const made = await test.office.post<MadeBooking>(`/api/test-days/${id}/bookings`, body)
    expect(made.conflicts).toMatchObject([{ rule: 'past-due', weight: 'warns' }])
    const [booking] = await bookingsOf(id)
    expect(booking).toMatchObject({ graderId: ground.graderId, startsAt: slots[1]!.startsAt, endsAt: slots[1]!.endsAt })
    const graderId = await makeSoldier(test.office, ground.unitId)
    await carryOver(test.office, graderId, ground.certification)
    expect((await test.office.tries('PATCH', `/api/slots/${slots[1]!.id}`, { graderId })).status).toBe(200)
    expect(await bookingsOf(id)).toMatchObject([{ graderId }])
    const sponsor = await test.office.tries('PATCH', `/api/slots/${slots[1]!.id}`, { graderId: ground.sponsorId })
    expect(sponsor.body).toMatchObject({ status: 409, type: 'urn:reviewstand:problem:grader-coached' })
    expect(await bookingsOf(id)).toMatchObject([{ graderId }])
  })

  it('of one slot at the same moment is won by exactly one', async () => {
    const { id, slots } = await makeDay('2026-07-14', 1)
    const candidates = [await makeRetest(), await makeRetest(), await makeRetest()]
    const answers = await Promise.all(
      candidates.map((candidateId) =>
        test.office.tries('POST', `/api/test-days/${id}/bookings`, {
          candidateId,
          standard: ground.standard,
          slotId: slots[0]!.id,
        }),
      ),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409])
    expect(await bookingsOf(id)).toHaveLength(1)
  })

  it('moves, is cancelled with a reason, and frees its slot', async () => {
    const [here, there] = [await makeDay('2026-07-15', 1), await makeDay('2026-07-16', 1)]
    const candidateId = await makeRetest()
    const body = { candidateId, standard: ground.standard, slotId: here.slots[0]!.id }
    const { id } = await test.office.post(`/api/test-days/${here.id}/bookings`, body)
    await test.office.post(`/api/bookings/${id}/move`, { testDayId: there.id, slotId: there.slots[0]!.id }, 200)
    expect((await dayOf(here.id)).freeSlots).toBe(1)
    expect((await dayOf(there.id)).freeSlots).toBe(0)
    await test.office.refused(422, 'POST', `/api/bookings/${id}/cancel`, { reason: ' ' })
    await test.office.post(`/api/bookings/${id}/cancel`, { reason: 'On leave' }, 200)
    expect(await bookingsOf(there.id)).toMatchObject([{ state: 'cancelled', stateReason: 'On leave' }])
    expect((await dayOf(there.id)).freeSlots).toBe(1)
    await test.office.refused(409, 'POST', `/api/bookings/${id}/mark`, { state: 'checked in' })
    await test.office.refused(409, 'POST', `/api/bookings/${id}/move`, { testDayId: here.id, slotId: null })
  })
})

describe('booking the backlog in bulk', () => {
  it('proposes a slot for each with what is in the way, then books all or what fits', async () => {
    const { id, slots } = await makeDay('2026-06-17', 3)
    const early = await makeRetest('2026-06-12')
    const fine = [await makeRetest(), await makeRetest(), await makeRetest()]
    const wanted = [early, ...fine].map((candidateId) => ({ candidateId, standard: ground.standard }))
    const plan = await test.office.post<BookingPlan>('/api/bookings/plan', { testDayIds: [id], wanted }, 200)
    expect(plan.freeSlots).toBe(3)
    expect(plan.items.map(({ slotId }) => slotId !== null)).toEqual([false, true, true, true])
    expect(plan.items.slice(1).every(({ conflicts }) => conflicts.length === 0)).toBe(true)
    expect(new Set(plan.items.flatMap(({ slotId }) => slotId ?? [])).size).toBe(3)
    await test.office.post(`/api/test-days/${id}/bookings`, { ...wanted[3], slotId: slots[2]!.id })
    const bookings = plan.items.slice(1).map(({ candidateId, standard, slotId }) => ({ candidateId, standard, slotId }))
    const problem = await test.office.refused(409, 'POST', '/api/bookings/bulk', { bookings })
    expect(problem.errors?.every(({ pointer }) => pointer.startsWith('/bookings/'))).toBe(true)
    expect(await bookingsOf(id)).toHaveLength(1)
    const done = await test.office.post<BulkBooking>('/api/bookings/bulk', { bookings, whatFits: true }, 200)
    expect([done.booked.length, done.refused.length]).toEqual([2, 1])
    expect(await bookingsOf(id)).toHaveLength(3)
  })
})

describe('calling a day off', () => {
  it('books everybody anew where there is room, and loses nobody', async () => {
    const { office } = test
    const [off, next] = [await makeDay('2026-08-03', 3), await makeDay('2026-08-04', 2)]
    const candidates = [await makeRetest(), await makeRetest(), await makeRetest()]
    for (const [at, candidateId] of candidates.entries()) {
      const body = { candidateId, standard: ground.standard, slotId: off.slots[at]!.id }
      await office.post(`/api/test-days/${off.id}/bookings`, body)
    }
    const plan = await office.get<BookingPlan>(`/api/test-days/${off.id}/call-off-plan`)
    expect(plan.items.map(({ testDayId }) => testDayId)).toEqual([next.id, next.id, null])
    const moves = plan.items.flatMap(({ bookingId, slotId }) => (slotId ? [{ bookingId, slotId }] : []))
    const done = await office.post<CallOff>(`/api/test-days/${off.id}/call-off`, { reason: 'Storm', moves }, 200)
    expect(done).toEqual({ moved: 2, backToBacklog: 1 })
    expect((await bookingsOf(off.id)).map(({ state, stateReason }) => [state, stateReason])).toEqual(
      Array(3).fill(['cancelled', 'Storm']),
    )
    expect(await dayOf(off.id)).toMatchObject({ calledOff: { reason: 'Storm' }, freeSlots: 0, bookings: 0 })
    const rebooked = await bookingsOf(next.id)
    expect(rebooked.map(({ candidateId }) => candidateId).sort()).toEqual(candidates.slice(0, 2).sort())
    await office.refused(409, 'POST', `/api/test-days/${off.id}/call-off`, { reason: 'Again' })
    const body = { candidateId: candidates[2], standard: ground.standard }
    await office.refused(409, 'POST', `/api/test-days/${off.id}/bookings`, body)
    // The grader is free again at that time.
    await makeDay('2026-08-03', 3)
  })
})
