import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import type { BookingPlan, CallOff, MadeBooking } from '../../../server/contract/test-days/bookings.ts'
import type { Booking, Slot, TestDay, TestDayDetail } from '../../../server/contract/test-days/test-days.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import {
  type Ground,
  makeCertification,
  makeGround,
  makeStandard,
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

const noticesOf = async (client: Client) => (await client.get<{ items: Notice[] }>('/api/notices')).items

/** A test day in a place with slots of half an hour, graded by the grader of the ground. */
async function makeDay(on: string, from: string, to: string, place = 'Drill hall') {
  const { id } = await test.office.post('/api/test-days', { on, unitId: ground.unitId, place })
  const body = { from, to, minutes: 30, graderIds: [ground.graderId] }
  const { items } = await test.office.post<{ items: Slot[] }>(`/api/test-days/${id}/slots`, body)
  return { id, slots: items }
}

/** A candidate with an open retest: NO-GO on a day. */
async function makeRetest(on = '2026-06-01') {
  const setting = await makeTestSetting(test.office, ground)
  await putSheet(test.office, setting.sheet({ ...times(on), ...NO_GO_MARKS }))
  return setting
}

const book = (testDayId: string, candidateId: string, slotId: string | null = null) =>
  test.office.post<MadeBooking>(`/api/test-days/${testDayId}/bookings`, {
    candidateId,
    standard: ground.standard,
    slotId,
  })

describe('slots and the clock', () => {
  it('count and are offered as free only until they begin', async () => {
    const { office } = test
    const { id, slots } = await makeDay('2026-06-15', '10:00', '14:00')
    expect(slots).toHaveLength(8)
    // At noon four have begun, the last of them is over.
    expect(await dayOf(id)).toMatchObject({ slots: 8, freeSlots: 3 })
    const list = await office.get<{ items: TestDay[] }>('/api/test-days?from=2026-06-15&through=2026-06-15')
    expect(list.items).toMatchObject([{ id, freeSlots: 3 }])
    const free = await office.get<{ items: Slot[] }>('/api/slots?from=2026-06-15&through=2026-06-15&free=true')
    expect(free.items.map(({ startsAt }) => startsAt.slice(11, 16))).toEqual(['12:30', '13:00', '13:30'])
    const { candidateId } = await makeRetest()
    const wanted = [{ candidateId, standard: ground.standard }]
    const plan = await office.post<BookingPlan>('/api/bookings/plan', { testDayIds: [id], wanted }, 200)
    expect(plan).toMatchObject({ freeSlots: 3, items: [{ startsAt: '2026-06-15T12:30:00Z' }] })

    const over = { candidateId, standard: ground.standard, slotId: slots[0]!.id }
    const single = await office.refused(409, 'POST', `/api/test-days/${id}/bookings`, over)
    expect(single.type).toBe('urn:reviewstand:problem:slot-over')
    const bulk = await office.refused(409, 'POST', '/api/bookings/bulk', { bookings: [over] })
    expect(bulk.errors).toMatchObject([{ pointer: '/bookings/0', rule: 'slot-over' }])
    const { id: booked } = await book(id, candidateId, slots[7]!.id)
    const moved = await office.refused(409, 'POST', `/api/bookings/${booked}/move`, {
      testDayId: id,
      slotId: slots[1]!.id,
    })
    expect(moved.type).toBe('urn:reviewstand:problem:slot-over')
    expect(await dayOf(id)).toMatchObject({ freeSlots: 2 })
  })
})

describe('what is said of a booking', () => {
  it('names the slot there is already, whether that day is before or after', async () => {
    const [early, late] = [await makeDay('2026-06-17', '08:00', '09:00'), await makeDay('2026-06-24', '08:00', '09:00')]
    const { candidateId } = await makeRetest()
    expect((await book(early.id, candidateId, early.slots[0]!.id)).conflicts).toEqual([])
    const second = await book(late.id, candidateId, late.slots[0]!.id)
    expect(second.conflicts).toMatchObject([
      { rule: 'booked-elsewhere', weight: 'warns', detail: expect.stringContaining('2026-06-17') },
    ])
    const { candidateId: other } = await makeRetest()
    await book(late.id, other, late.slots[1]!.id)
    expect((await book(early.id, other, early.slots[1]!.id)).conflicts).toMatchObject([{ rule: 'booked-elsewhere' }])
  })

  it('names the due day it is after', async () => {
    const { id, slots } = await makeDay('2026-08-20', '08:00', '09:00')
    const { candidateId } = await makeRetest()
    expect((await book(id, candidateId, slots[0]!.id)).conflicts).toMatchObject([
      { rule: 'past-due', weight: 'warns', detail: expect.stringMatching(/after the due day.*2026-07-01/) },
    ])
  })

  it('says that the candidate has passed already', async () => {
    const { id } = await makeDay('2026-06-25', '08:00', '09:00')
    const setting = await makeTestSetting(test.office, ground)
    await putSheet(test.office, setting.sheet(times('2026-06-10')))
    expect((await book(id, setting.candidateId)).conflicts).toMatchObject([
      { rule: 'not-needed', weight: 'warns', detail: expect.stringContaining('2026-06-10') },
    ])
  })
})

describe('a day that was called off', () => {
  it('still says who was to grade and where each candidate went; the graders are free', async () => {
    const { office } = test
    const off = await makeDay('2026-07-06', '08:00', '10:00')
    const next = await makeDay('2026-07-07', '08:00', '08:30', 'North field')
    const [first, second] = [await makeRetest(), await makeRetest()]
    await book(off.id, first.candidateId, off.slots[0]!.id)
    await book(off.id, second.candidateId, off.slots[1]!.id)
    const plan = await office.get<BookingPlan>(`/api/test-days/${off.id}/call-off-plan`)
    const moves = plan.items
      .filter(({ testDayId }) => testDayId === next.id)
      .map(({ bookingId, slotId }) => ({ bookingId, slotId }))
    await office.post<CallOff>(`/api/test-days/${off.id}/call-off`, { reason: 'Heat', moves }, 200)

    const { slotList } = await dayOf(off.id)
    expect(slotList.map(({ graderId, taken }) => [graderId, taken])).toEqual(Array(4).fill([ground.graderId, false]))
    const [rebooked] = await bookingsOf(next.id)
    const there = { bookingId: rebooked!.id, testDayId: next.id, on: '2026-07-07', place: 'North field' }
    const went = (await bookingsOf(off.id)).map(({ candidateId, movedTo }) => [candidateId, movedTo])
    expect(went).toContainEqual([first.candidateId, { ...there, startsAt: '2026-07-07T08:00:00Z', state: 'booked' }])
    expect(went).toContainEqual([second.candidateId, null])
    const later = await makeDay('2026-07-08', '08:00', '08:30')
    await book(later.id, second.candidateId, later.slots[0]!.id)
    const since = (await bookingsOf(off.id)).find(({ candidateId }) => candidateId === second.candidateId)
    expect(since?.movedTo).toMatchObject({ testDayId: later.id, state: 'booked' })
    await makeDay('2026-07-06', '08:00', '10:00')
  })

  it('gives no slot to who has passed or has another slot, for slots are scarce', async () => {
    const { office } = test
    const off = await makeDay('2026-09-01', '08:00', '09:30')
    const next = await makeDay('2026-09-02', '08:00', '09:00')
    const [twice, needy] = [await makeRetest(), await makeRetest()]
    const passed = await makeTestSetting(office, ground)
    await book(next.id, twice.candidateId, next.slots[1]!.id)
    for (const [at, { candidateId }] of [twice, passed, needy].entries()) {
      await book(off.id, candidateId, off.slots[at]!.id)
    }
    await putSheet(office, passed.sheet(times('2026-06-14')), randomUUID())
    const bookings = await bookingsOf(off.id)
    const plan = await office.get<BookingPlan>(`/api/test-days/${off.id}/call-off-plan`)
    const of = (candidateId: string) => plan.items.find((one) => one.candidateId === candidateId)
    expect(of(needy.candidateId)).toMatchObject({ slotId: next.slots[0]!.id })
    expect(of(twice.candidateId)).toMatchObject({ slotId: null, conflicts: [{ rule: 'booked-elsewhere' }] })
    expect(of(passed.candidateId)?.slotId ?? null).toBeNull()
    expect(bookings).toHaveLength(3)
  })
})

describe('a booking whose test is not needed any more', () => {
  it('ends by itself when a GO counts, frees its slot, and stands again when that GO is undone', async () => {
    const { office } = test
    const day = await makeDay('2026-07-27', '08:00', '09:00')
    const setting = await makeRetest()
    const { id: booking } = await book(day.id, setting.candidateId, day.slots[0]!.id)
    const candidate = await test.signedIn({
      name: `candidate ${randomUUID()}`,
      roles: ['soldier'],
      soldierId: setting.candidateId,
    })
    const id = randomUUID()
    const sheet = setting.sheet(times('2026-06-13'))
    await putSheet(office, sheet, id)
    expect(await bookingsOf(day.id)).toMatchObject([
      { id: booking, state: 'cancelled', stateReason: expect.stringContaining('Not needed any more') },
    ])
    expect(await dayOf(day.id)).toMatchObject({ freeSlots: 2, bookings: 0 })
    expect((await noticesOf(candidate)).map(({ kind, over }) => [kind, over])).toContainEqual(['not needed', false])

    const second = await test.signedIn({ name: `second ${randomUUID()}` })
    await amend(office, second, id, { ...sheet, ...NO_GO_MARKS })
    expect(await bookingsOf(day.id)).toMatchObject([
      { id: booking, state: 'booked', stateReason: null, slotId: day.slots[0]!.id },
    ])
    expect((await noticesOf(candidate)).map(({ kind }) => kind)).toContain('needed again')
    expect((await noticesOf(office)).map(({ kind }) => kind)).toContain('needed again')

    await amend(office, second, id, sheet)
    expect(await bookingsOf(day.id)).toMatchObject([{ id: booking, state: 'cancelled' }])
    const { candidateId: other } = await makeRetest()
    await book(day.id, other, day.slots[0]!.id)
    await amend(office, second, id, { ...sheet, ...NO_GO_MARKS })
    const after = (await bookingsOf(day.id)).find((one) => one.id === booking)
    expect(after).toMatchObject({ state: 'booked', slotId: null, startsAt: null, graderId: null })
  })

  it('stays where it is the one that was tested, or is of before the GO', async () => {
    const day = await makeDay('2026-06-15', '15:00', '16:00', 'South field')
    const setting = await makeRetest()
    await book(day.id, setting.candidateId, day.slots[0]!.id)
    test.clock.now = new Date('2026-06-15T14:45:00Z')
    await putSheet(test.office, setting.sheet({ ...times('2026-06-15', 14), testDayId: day.id }))
    expect(await bookingsOf(day.id)).toMatchObject([{ state: 'tested' }])
    test.clock.now = new Date('2026-06-15T12:00:00Z')
  })
})

describe('a booking toward a certification of two standards', () => {
  it('ends only where its own standard is in, and not where the certification is to be renewed', async () => {
    const { office } = test
    const other = await makeStandard(office)
    await makeCertification(office, { standards: [ground.standard, other] })
    const [near, far] = [await makeDay('2026-07-20', '08:00', '09:00'), await makeDay('2027-06-01', '08:00', '09:00')]
    const setting = await makeTestSetting(office, ground)
    const add = (day: string, standard: string) =>
      office.post<MadeBooking>(`/api/test-days/${day}/bookings`, { candidateId: setting.candidateId, standard })
    await add(near.id, ground.standard)
    const { id: missing } = await add(near.id, other)
    const { id: renewal } = await add(far.id, ground.standard)
    await putSheet(office, setting.sheet(times('2026-06-12')))
    const { items } = await office.get<{ items: Booking[] }>(`/api/bookings?candidateId=${setting.candidateId}`)
    expect(items.map(({ id }) => id)).toEqual([missing, renewal])
  })
})

describe('notices', () => {
  it('are over when what they say is done', async () => {
    const { office } = test
    const day = await makeDay('2026-10-05', '08:00', '09:00')
    const setting = await makeRetest()
    const soldier = { roles: ['soldier' as const], soldierId: setting.candidateId }
    const candidate = await test.signedIn({ name: `candidate ${randomUUID()}`, ...soldier })
    const { id } = await book(day.id, setting.candidateId, day.slots[0]!.id)
    const unread = async () => (await candidate.get<{ unread: number }>('/api/notices/unread')).unread
    const before = await unread()
    const booked = async () => (await noticesOf(candidate)).find(({ kind }) => kind === 'booked')
    expect(await booked()).toMatchObject({ over: false })
    await office.post(`/api/bookings/${id}/move`, { testDayId: day.id, slotId: day.slots[1]!.id }, 200)
    expect(await booked()).toMatchObject({ over: true })
    expect(await unread()).toBe(before)
    await office.post(`/api/bookings/${id}/cancel`, { reason: 'On leave' }, 200)
    const kinds = (await noticesOf(candidate)).map(({ kind, over }) => [kind, over])
    expect(kinds).toContainEqual(['moved', true])
    expect(kinds).toContainEqual(['cancelled', false])
  })

  it('tell the leader that a soldier’s test day was called off and where the soldier goes', async () => {
    const { office } = test
    const off = await makeDay('2026-10-12', '08:00', '08:30')
    const next = await makeDay('2026-10-13', '08:00', '08:30')
    const { candidateId } = await makeRetest()
    const { id: bookingId } = await book(off.id, candidateId, off.slots[0]!.id)
    const leads = (unitId: string) => ({ name: `leader ${randomUUID()}`, roles: ['leader' as const], unitId })
    const leader = await test.signedIn(leads(ground.unitId))
    const stranger = await test.signedIn(leads(await makeUnit(office)))
    const moves = [{ bookingId, slotId: next.slots[0]!.id }]
    await office.post(`/api/test-days/${off.id}/call-off`, { reason: 'Heat', moves }, 200)
    const told = (await noticesOf(leader)).filter(({ aboutId }) => aboutId === candidateId)
    expect(told.map(({ kind, testDayId, toLeaders }) => [kind, testDayId, toLeaders]).sort()).toEqual([
      ['booked', next.id, true],
      ['day called off', off.id, true],
    ])
    expect(await noticesOf(stranger)).toEqual([])
    expect((await noticesOf(office)).filter(({ toLeaders }) => toLeaders)).toEqual([])
  })
})
