import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Booking, Slot } from '../../../server/contract/test-days/test-days.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { type Ground, makeGround, makeSoldier, makeTestSetting, putSheet } from '../../support/factories.ts'
import { seeded } from '../../support/plans/random-problem.ts'
import { workedOut } from '../../support/plans/solved-plan.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
let ground: Ground
const candidates: string[] = []
const days: string[] = []
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  ground = await makeGround(test.office)
  for (let at = 0; at < 8; at++) {
    const setting = await makeTestSetting(test.office, ground)
    await putSheet(test.office, setting.sheet({ ...times(`2026-06-0${(at % 5) + 1}`), ...NO_GO_MARKS }))
    candidates.push(setting.candidateId)
  }
  for (const on of ['2026-06-18', '2026-06-22', '2026-06-26']) {
    const { id } = await test.office.post('/api/test-days', { on, unitId: ground.unitId, place: 'Drill hall' })
    const body = { from: '09:00', to: '11:00', minutes: 30, graderIds: [ground.graderId] }
    await test.office.post<{ items: Slot[] }>(`/api/test-days/${id}/slots`, body)
    days.push(id)
  }
})
afterAll(() => test.close())

/** What is wrong with the bookings as they stand; nothing, whatever was done. */
async function unsound(): Promise<unknown[]> {
  return test.sql(`
    WITH open AS (SELECT b.*, s.starts_at AS from_at, s.ends_at AS to_at, s.test_day_id AS slot_day, s.grader_id AS slot_grader,
        d.called_off_at FROM booking b JOIN test_day d ON d.id = b.test_day_id LEFT JOIN slot s ON s.id = b.slot_id
      WHERE b.state = 'booked')
    SELECT 'two at once' AS what, a.id FROM open a JOIN open b ON a.candidate_id = b.candidate_id AND a.id < b.id
      AND a.from_at < b.to_at AND b.from_at < a.to_at
    UNION ALL SELECT 'two in a slot', a.id FROM open a JOIN open b ON a.slot_id = b.slot_id AND a.id < b.id
    UNION ALL SELECT 'twice for a standard', a.id FROM open a JOIN open b ON a.candidate_id = b.candidate_id
      AND a.standard_id = b.standard_id AND a.id < b.id
    UNION ALL SELECT 'slot of another day', id FROM open WHERE slot_id IS NOT NULL AND slot_day <> test_day_id
    UNION ALL SELECT 'another grader', id FROM open WHERE slot_id IS NOT NULL AND slot_grader IS DISTINCT FROM grader_id
    UNION ALL SELECT 'on a day called off', id FROM open WHERE called_off_at IS NOT NULL
    UNION ALL SELECT 'of a plan, in no slot', o.id FROM open o JOIN plan_booking p ON p.booking_id = o.id
      WHERE p.undone_at IS NULL AND o.slot_id IS NULL`)
}

describe('plans accepted, undone and overtaken in any order', () => {
  it('leave sound bookings', async () => {
    const next = seeded(20261130)
    const pick = <Thing>(things: readonly Thing[]): Thing | undefined => things[Math.floor(next() * things.length)]
    const plans: string[] = []
    const done = new Map<string, number>()
    const tries = async (what: string, path: string, body?: object) => {
      const { status } = await test.office.tries('POST', path, body)
      expect([200, 201, 202, 404, 409, 422], `${what}: ${status}`).toContain(status)
      if (status < 300) done.set(what, (done.get(what) ?? 0) + 1)
    }
    const asked = async () => {
      const body = { kind: 'retests', unitId: ground.unitId, from: '2026-06-15', to: '2026-07-15' }
      const answer = await test.office.tries('POST', '/api/plans', { ...body, moveBookings: next() < 0.5 })
      const { id } = answer.body as { id: string }
      await workedOut(test.office, id)
      if (!plans.includes(id)) plans.push(id)
      done.set('ask', (done.get('ask') ?? 0) + 1)
    }
    const accept = async () => {
      const id = next() < 0.7 ? plans.at(-1) : pick(plans)
      if (!id) return
      const { pairs } = await test.office.get<{ pairs: string[] }>(`/api/plans/${id}/answer`)
      const some = pairs.filter(() => next() < 0.4)
      await tries('accept', `/api/plans/${id}/accept`, { pairs: some.length > 0 ? some : 'all' })
    }
    const undo = async () => {
      const id = pick(plans)
      if (id) await tries('undo', `/api/plans/${id}/undo`)
    }
    const bookings = async () =>
      (await test.office.get<{ items: Booking[] }>('/api/bookings?from=2026-06-15')).items.filter(
        ({ state }) => state === 'booked',
      )
    const cancel = async () => {
      const one = pick(await bookings())
      if (one) await tries('cancel', `/api/bookings/${one.id}/cancel`, { reason: 'Ill' })
    }
    const move = async () => {
      const one = pick(await bookings())
      const { items } = await test.office.get<{ items: Slot[] }>('/api/slots?from=2026-06-15&free=true')
      const slot = pick(items)
      if (one && slot)
        await tries('move', `/api/bookings/${one.id}/move`, { testDayId: slot.testDayId, slotId: slot.id })
    }
    const absence = async () => {
      const from = pick(['2026-06-18', '2026-06-22', '2026-06-26'])
      await tries('absence', `/api/soldiers/${pick(candidates)}/absences`, { kind: 'leave', from, through: from })
    }
    const merge = async () => {
      const awayId = await makeSoldier(test.office, ground.unitId)
      await tries('merge', `/api/soldiers/${pick(candidates)}/merges`, { awayId, reason: 'The same' })
    }
    const callOff = async () => tries('call off', `/api/test-days/${days[0]}/call-off`, { reason: 'Storm' })
    const steps = [asked, asked, accept, accept, accept, undo, cancel, move, absence, merge]
    for (let step = 0; step < 60; step++) {
      if (step === 40) await callOff()
      else await pick(steps)!()
      expect(await unsound(), `after step ${step}`).toEqual([])
    }
    for (const what of ['ask', 'accept', 'undo', 'cancel', 'absence', 'merge', 'call off']) {
      expect(done.get(what) ?? 0, what).toBeGreaterThan(0)
    }
  }, 600_000)
})
