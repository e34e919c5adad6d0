import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Coaching } from '../../../server/contract/coaching/coaching.ts'
import type { Plan, RetestPlanRows } from '../../../server/contract/plans/plans.ts'
import type { Booking, Slot } from '../../../server/contract/test-days/test-days.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { type Ground, makeGround, makeTestSetting, putSheet } from '../../support/factories.ts'
import { solvedPlan, workedOut } from '../../support/plans/solved-plan.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
let ground: Ground
beforeEach(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  ground = await makeGround(test.office)
})
afterEach(() => test.close())

/** A test day with slots of half an hour, graded by the grader of the ground. */
async function makeDay(on: string, from: string, to: string) {
  const { id } = await test.office.post('/api/test-days', { on, unitId: ground.unitId, place: 'Drill hall' })
  const body = { from, to, minutes: 30, graderIds: [ground.graderId] }
  const { items } = await test.office.post<{ items: Slot[] }>(`/api/test-days/${id}/slots`, body)
  return { id, slots: items }
}

/** A candidate with an open retest, due thirty days after a NO-GO. */
async function makeRetest(on = '2026-06-01') {
  const setting = await makeTestSetting(test.office, ground)
  await putSheet(test.office, setting.sheet({ ...times(on), ...NO_GO_MARKS }))
  return setting.candidateId
}

const asked = (more: object = {}) => ({
  kind: 'retests',
  unitId: ground.unitId,
  from: '2026-06-15',
  to: '2026-07-15',
  ...more,
})
const rowsOf = (id: string) => test.office.get<RetestPlanRows>(`/api/plans/${id}/retests`)
const bookingsOf = async (candidateId: string) =>
  (await test.office.get<{ items: Booking[] }>(`/api/bookings?candidateId=${candidateId}&state=all`)).items

describe('a retest plan', () => {
  it('places by due day first, says why the rest is not placed and what would place most', async () => {
    const late = await makeRetest('2026-06-10')
    const soon = [await makeRetest('2026-06-01'), await makeRetest('2026-06-02')]
    const day = await makeDay('2026-06-20', '10:00', '11:00')
    const { id, plan, problem } = await solvedPlan(test.office, asked())
    expect(problem.wanted).toHaveLength(3)
    expect(plan.levels.slice(0, 2)).toEqual([
      { name: 'placed by their due day', value: 2, bound: 2 },
      { name: 'placed', value: 2, bound: 2 },
    ])
    const plans = await rowsOf(id)
    expect(plans).toMatchObject({ open: 3, inTime: 2 })
    expect(plans.rows.map(({ candidateId }) => candidateId).sort()).toEqual([...soon].sort())
    expect(plans.rows.map(({ startsAt }) => startsAt.slice(11, 16))).toEqual(['10:00', '10:30'])
    expect(plans.unplaced).toMatchObject([{ candidateId: late, reason: 'taken' }])
    expect(plans.unplaced[0]!.detail).toMatch(/taken: by .+ \(due 2026-07-01\); .+ \(due 2026-07-02\)/)
    expect(plans.bestChange).toMatchObject({ change: 'more slots', testDayId: day.id, places: 1 })
  })

  it('is the same plan when asked for again, and another once something has changed', async () => {
    await makeRetest()
    await makeDay('2026-06-20', '10:00', '11:00')
    const { id } = await solvedPlan(test.office, asked())
    expect(await test.office.post('/api/plans', asked(), 200)).toEqual({ id })
    await makeDay('2026-06-19', '10:00', '11:00')
    const stale = await test.office.get<Plan>(`/api/plans/${id}`)
    expect(stale).toMatchObject({ state: 'stale', changed: ['A slot on 2026-06-19 is free now.'] })
    const next = await solvedPlan(test.office, asked())
    expect(next.id).not.toBe(id)
    expect((await rowsOf(next.id)).rows).toMatchObject([{ on: '2026-06-19' }])
  })

  it('books what is accepted in one go, and undoes what nobody changed since', async () => {
    const candidates = [await makeRetest(), await makeRetest(), await makeRetest()]
    const day = await makeDay('2026-06-20', '10:00', '12:00')
    const { id, answer } = await solvedPlan(test.office, asked())
    const [first] = answer.pairs
    expect(await test.office.post(`/api/plans/${id}/accept`, { pairs: [first] }, 200)).toEqual({ booked: 1, moved: 0 })
    expect(await test.office.get<Plan>(`/api/plans/${id}`)).toMatchObject({ state: 'ready', accepted: [first] })
    const again = await test.office.refused(409, 'POST', `/api/plans/${id}/accept`, { pairs: [first] })
    expect(again.type).toBe('urn:reviewstand:problem:accepted-already')
    expect(await test.office.post(`/api/plans/${id}/accept`, { pairs: 'all' }, 200)).toEqual({ booked: 2, moved: 0 })

    const [booking] = await bookingsOf(candidates[0]!)
    const elsewhere = { testDayId: day.id, slotId: day.slots[3]!.id }
    await test.office.post(`/api/bookings/${booking!.id}/move`, elsewhere, 200)
    expect(await test.office.post(`/api/plans/${id}/undo`, undefined, 200)).toEqual({ undone: 2, left: 1 })
    const states = await Promise.all(candidates.map(async (one) => (await bookingsOf(one)).map(({ state }) => state)))
    expect(states).toEqual([['booked'], ['cancelled'], ['cancelled']])
    const entries = await test.sql<{ action: string }>(
      "SELECT action FROM record_entry WHERE action LIKE 'plan.%' ORDER BY seq",
    )
    expect(entries.map(({ action }) => action)).toEqual(['plan.accepted', 'plan.accepted', 'plan.undone'])
  })

  it('shows sponsors what it booked for their own candidates once accepted, and nothing before', async () => {
    const [setting, other] = [await makeTestSetting(test.office, ground), await makeTestSetting(test.office)]
    for (const one of [setting, other]) {
      await putSheet(test.office, one.sheet({ ...times('2026-06-01'), ...NO_GO_MARKS }))
    }
    const signedIn = (name: string, soldierId: string) => test.signedIn({ name, roles: ['sponsor'], soldierId })
    const sponsors = [await signedIn('one', setting.sponsorId), await signedIn('two', other.sponsorId)]
    await makeDay('2026-06-20', '10:00', '11:00')
    const { id } = await solvedPlan(test.office, asked())
    const { rows } = await rowsOf(id)
    const seen = async () =>
      Promise.all(
        sponsors.map(async (sponsor) =>
          (await sponsor.get<Coaching>('/api/coaching')).items.map(({ candidateId, ahead }) => {
            const booking = ahead[0]?.booking
            return [candidateId, booking ? Date.parse(booking.startsAt!) : null]
          }),
        ),
      )
    const nothing = [[[setting.candidateId, null]], [[other.candidateId, null]]]
    expect(await seen()).toEqual(nothing)
    for (const part of ['', '/retests', '/answer', '/problem']) {
      await sponsors[0]!.refused(403, 'GET', `/api/plans/${id}${part}`)
    }
    await test.office.post(`/api/plans/${id}/accept`, { pairs: 'all' }, 200)
    const slot = Date.parse(rows.find(({ candidateId }) => candidateId === setting.candidateId)!.startsAt)
    expect(await seen()).toEqual([[[setting.candidateId, slot]], [[other.candidateId, null]]])
    await test.office.post(`/api/plans/${id}/undo`, undefined, 200)
    expect(await seen()).toEqual(nothing)
  })

  it('refuses all where something was taken meanwhile, says what, and takes the rest when asked', async () => {
    const [one, two] = [await makeRetest(), await makeRetest()]
    const day = await makeDay('2026-06-20', '10:00', '11:00')
    const { id, problem, answer } = await solvedPlan(test.office, asked())
    const stranger = await makeRetest()
    const body = { candidateId: stranger, standard: ground.standard, slotId: day.slots[0]!.id }
    await test.office.post(`/api/test-days/${day.id}/bookings`, body)
    const plan = await test.office.get<Plan>(`/api/plans/${id}`)
    expect(plan.state).toBe('stale')
    expect(plan.changed).toContain('The slot on 2026-06-20 is not free any more.')
    const refused = await test.office.refused(409, 'POST', `/api/plans/${id}/accept`, { pairs: 'all' })
    expect(refused.type).toBe('urn:reviewstand:problem:changed-since')
    expect(refused.errors?.map(({ detail }) => detail)).toEqual([
      expect.stringMatching(/: Somebody else is booked in the slot\.$/),
    ])
    expect([...(await bookingsOf(one)), ...(await bookingsOf(two))]).toEqual([])
    const taken = problem.places.find(({ slotId }) => slotId === day.slots[0]!.id)!.id
    const rest = answer.pairs.filter((pair) => problem.pairs.find(({ id: known }) => known === pair)!.place !== taken)
    expect(await test.office.post(`/api/plans/${id}/accept`, { pairs: rest }, 200)).toEqual({ booked: 1, moved: 0 })
  })

  it('moves a booking only when it is let, and loses none', async () => {
    const early = await makeRetest('2026-06-01')
    const late = await makeRetest('2026-06-10')
    await makeDay('2026-06-20', '10:00', '10:30')
    const after = await makeDay('2026-07-05', '10:00', '10:30')
    const first = await solvedPlan(test.office, asked())
    // The one who is due later stands in the only slot by the day on which the other is due.
    const [slot] = (await test.office.get<{ items: Slot[] }>('/api/slots?from=2026-06-20&through=2026-06-20')).items
    const body = { candidateId: late, standard: ground.standard, slotId: slot!.id }
    await test.office.post(`/api/test-days/${slot!.testDayId}/bookings`, body)
    expect(first.plan.levels[0]).toMatchObject({ value: 2 })

    const stays = await solvedPlan(test.office, asked())
    expect((await rowsOf(stays.id)).rows).toMatchObject([{ candidateId: early, on: '2026-07-05', daysLate: 4 }])
    const moves = await solvedPlan(test.office, asked({ moveBookings: true }))
    expect(moves.plan.levels.map(({ name, value }) => [name, value])).toEqual([
      ['bookings kept', 1],
      ['placed by their due day', 2],
      ['placed', 2],
      ['expected posts filled', 0],
      ['days after due', 0],
      ['bookings moved', 1],
      ['days into the period', 25],
    ])
    expect(await test.office.post(`/api/plans/${moves.id}/accept`, { pairs: 'all' }, 200)).toEqual({
      booked: 1,
      moved: 1,
    })
    expect(await bookingsOf(late)).toMatchObject([{ state: 'booked', testDayId: after.id }])
    expect(await bookingsOf(early)).toMatchObject([{ state: 'booked', testDayId: slot!.testDayId }])
    expect(await test.office.post(`/api/plans/${moves.id}/undo`, undefined, 200)).toEqual({ undone: 2, left: 0 })
    expect(await bookingsOf(late)).toMatchObject([{ state: 'booked', testDayId: slot!.testDayId }])
  })

  it('leaves out what waits for a review, an earliest day, or a sponsor who is away', async () => {
    const away = await makeRetest('2026-06-01')
    const early = await makeRetest('2026-06-14')
    await makeDay('2026-06-18', '10:00', '12:00')
    await test.office.post(`/api/soldiers/${ground.sponsorId}/absences`, {
      kind: 'leave',
      from: '2026-06-16',
      through: '2026-06-30',
    })
    const { id } = await solvedPlan(test.office, asked())
    const { rows, unplaced, bestChange } = await rowsOf(id)
    expect(rows).toEqual([])
    const reasons = new Map(unplaced.map(({ candidateId, reason }) => [candidateId, reason]))
    expect(reasons.get(away)).toBe('sponsor never free')
    expect(reasons.get(early)).toBe('not before')
    expect(bestChange).toMatchObject({ change: 'test day', places: 2 })
  })

  it('takes in renewals and first tests when asked', async () => {
    const setting = await makeTestSetting(test.office, ground)
    await makeDay('2026-06-20', '10:00', '12:00')
    const without = await solvedPlan(test.office, asked())
    expect(without.problem.wanted).toEqual([])
    const first = await solvedPlan(test.office, asked({ firstTests: true }))
    expect(first.problem.wanted.map(({ candidateId, kind }) => [candidateId, kind])).toContainEqual([
      setting.candidateId,
      'first test',
    ])
  })

  it('is for the training office alone, and not there for others', async () => {
    const leader = await test.signedIn({ name: 'leader', roles: ['leader'], unitId: ground.unitId })
    await leader.refused(403, 'POST', '/api/plans', asked())
    const { id } = await solvedPlan(test.office, asked())
    await leader.refused(403, 'GET', `/api/plans/${id}`)
    await test.office.refused(404, 'GET', `/api/plans/${ground.unitId}`)
    await test.office.refused(404, 'POST', '/api/plans', asked({ unitId: ground.graderId }))
    await test.office.refused(422, 'POST', '/api/plans', asked({ to: '2026-06-01' }))
  })

  it('can be stopped, and stays as it is when it was solved', async () => {
    await makeRetest()
    await makeDay('2026-06-20', '10:00', '11:00')
    const { id } = await test.office.post('/api/plans', asked(), 202)
    await test.office.post(`/api/plans/${id}/stop`, undefined, 200)
    const plan = await workedOut(test.office, id)
    expect(['ready', 'stopped']).toContain(plan.state)
    await test.office.post(`/api/plans/${id}/stop`, undefined, 200)
    expect((await test.office.get<Plan>(`/api/plans/${id}`)).state).toBe(plan.state)
  })
})
