import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { everyRow } from '../../support/every-row.ts'
import {
  carryOver,
  makeSoldier,
  makeTestSetting,
  practiceOf,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

/** Worked out anew from what a merge moves. */
const DERIVED = ['soldier_change', 'soldier_period', 'standing', 'retest_span', 'earned_award', 'person_tally']
/** Who has a row there is not merged any more. */
const NEVER = ['removal']

let test: TestApp
let office: Client
let setting: TestSetting
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  office = test.office
  setting = await makeTestSetting(office)
})
afterAll(() => test.close())

/** Every column that names a soldier, as the database knows them. */
const namings = () =>
  test.sql<{ table: string; column: string }>(
    `SELECT con.conrelid::regclass::text AS table, att.attname AS column FROM pg_constraint con
     JOIN pg_attribute att ON att.attrelid = con.conrelid AND att.attnum = con.conkey[1]
     WHERE con.contype = 'f' AND con.confrelid = 'soldier'::regclass AND con.conrelid::regclass::text <> ALL($1)`,
    [[...DERIVED, ...NEVER]],
  )

/** How many rows name a soldier, by column. */
async function counts(soldierId: string): Promise<Record<string, number>> {
  const found: Record<string, number> = {}
  for (const { table, column } of await namings()) {
    const [row] = await test.sql<{ n: number }>(`SELECT count(*)::int AS n FROM ${table} WHERE ${column} = $1`, [
      soldierId,
    ])
    found[`${table}.${column}`] = row!.n
  }
  return found
}

const newcomer = () => makeSoldier(office, setting.unitId)
const merge = (keptId: string, awayId: string) =>
  office.tries('POST', `/api/soldiers/${keptId}/merges`, { awayId, reason: 'Entered twice' })
const post = (place: number, soldierId: string) => ({
  title: 'Guide',
  row: 1,
  place,
  certification: setting.certification,
  soldierId,
})
const ceremony = (posts: object[], alternates: string[] = []) =>
  office.post('/api/ceremonies', {
    title: 'Review',
    unitId: setting.unitId,
    startsAt: '2026-07-01T10:00:00Z',
    endsAt: '2026-07-01T11:00:00Z',
    posts,
    alternates,
  })
const testDay = (on: string) => office.post('/api/test-days', { on, unitId: setting.unitId }).then(({ id }) => id)
const book = (day: string, candidateId: string, graderId: string | null = null) =>
  office.post(`/api/test-days/${day}/bookings`, { candidateId, standard: setting.standard, graderId })

/** A manning plan that named a soldier in place of another, and the other way round. */
async function namedByPlan(one: string, other: string): Promise<void> {
  await test.sql(
    `WITH made AS (INSERT INTO plan (kind, unit_id, from_day, to_day, options, content, account_id, asked_at, state, beat_at)
       SELECT 'manning', $1, '2026-07-01', '2026-07-01', '{}', $2, id, now(), 'failed', now() FROM account LIMIT 1 RETURNING id)
     INSERT INTO plan_name (plan_id, pair, ceremony_id, soldier_id, before_id, accepted_at)
     SELECT made.id, pair.id, c.id, pair.one::uuid, pair.other::uuid, now()
     FROM made, (SELECT id FROM ceremony LIMIT 1) c, (VALUES ('1', $3, $4), ('2', $4, $3)) pair(id, one, other)`,
    [setting.unitId, `${one} ${other}`, one, other],
  )
}

/** Somebody of whom there is something of everything. */
async function makeBusy(): Promise<string> {
  const { standard, certification, sponsorId, graderId } = setting
  const [busy, other, booked, twin] = [await newcomer(), await newcomer(), await newcomer(), await newcomer()]
  const about = (what: string, body: object) => office.post(`/api/soldiers/${busy}/${what}`, body)
  const account = await test.signedIn({ name: `account of ${busy}`, roles: ['soldier'], soldierId: busy })
  await about('sponsorships', { sponsorId, from: '2026-01-01' })
  await office.post(`/api/soldiers/${other}/sponsorships`, { sponsorId: busy, from: '2026-05-01' })
  await putSheet(office, setting.sheet({ candidateId: busy, ...times('2026-03-02'), ...NO_GO_MARKS }))
  await about('due-days', { certification, standard, due: '2026-08-01', reason: 'Leave' })
  await carryOver(office, busy, certification, { awardedOn: '2026-03-10' })
  await about('absences', { from: '2026-06-01', through: '2026-06-03', kind: 'leave' })
  await about('appointments', { standard, from: '2026-01-01' })
  await about('reviews', { standard, on: '2026-03-05', note: 'Seen' })
  await about('withdrawals', { certification, on: '2020-06-01', reason: 'Moved' })
  await about('coaching-notes', { on: '2026-06-10', standard, text: 'Slower' })
  await office.put(`/api/practices/${randomUUID()}`, practiceOf(busy, standard))
  await test.sql(
    `WITH decided AS (INSERT INTO award_decision (soldier_id, certification_id, sheet_id, decision, on_day, reason)
       SELECT $1, c.id, s.id, 'refuse', '2026-03-02', 'R' FROM certification c, sheet s WHERE s.candidate_id = $1 LIMIT 1)
     INSERT INTO award_extension (soldier_id, certification_id, carried_award_id, days, kind, on_day, reason)
     SELECT $1, certification_id, id, 5, 'injury', '2026-03-12', 'Knee' FROM carried_award WHERE soldier_id = $1`,
    [busy],
  )
  await office.post('/api/suspensions', { soldierId: busy, certification, from: '2026-06-10', reason: 'Inquiry' })
  await putSheet(office, setting.sheet({ candidateId: other, graderId: busy, ...times('2026-04-02') }))
  await putSheet(office, setting.sheet({ candidateId: other, sponsorId: busy, ...times('2026-05-02') }))
  await office.put(`/api/soldiers/${busy}/height`, { heightCm: 181 }, 200)
  await ceremony([post(1, busy)])
  await ceremony([post(1, other)], [busy])
  await namedByPlan(busy, other)
  const [day, later] = [await testDay('2026-06-20'), await testDay('2026-06-21')]
  await office.post(`/api/test-days/${day}/slots`, { from: '08:00', to: '09:00', minutes: 30, graderIds: [busy] })
  await book(later, busy, graderId)
  await book(day, booked, busy)
  const second = await book(later, booked, graderId)
  await office.post(`/api/bookings/${second.id}/second-grader`, { graderId: busy }, 200)
  for (const people of [
    { candidateId: busy, graderId },
    { candidateId: booked, graderId: busy },
  ]) {
    const counters = { calls: 9, callsDone: 1, go: 0, noGo: 0 }
    const body = {
      testDayId: day,
      standard,
      startedAt: '2026-06-15T11:50:00Z',
      state: 'running',
      ...counters,
      ...people,
    }
    await office.put(`/api/running-tests/${randomUUID()}`, body, 204)
  }
  await office.post(`/api/soldiers/${busy}/merges`, { awayId: twin, reason: 'Entered twice' })
  await account.post('/api/account/calendar')
  return busy
}

describe('a soldier with something of everything', () => {
  it.each(['given up', 'kept'])(
    'is merged whole and taken apart exactly, when %s',
    { timeout: 300_000 },
    async (part) => {
      const [busy, empty] = [await makeBusy(), await newcomer()]
      const had = await counts(busy)
      // A new column that names soldiers has to be thought of: is it moved, does it clash? Then give makeBusy a row of it.
      expect(Object.entries(had).filter(([, count]) => count === 0)).toEqual([])
      const [keptId, awayId] = part === 'kept' ? [busy, empty] : [empty, busy]
      const before = await everyRow(test)
      const answer = await merge(keptId, awayId)
      expect(answer.status, JSON.stringify(answer.body)).toBe(201)
      expect(await counts(keptId)).toEqual({ ...had, 'soldier_merge.kept_id': had['soldier_merge.kept_id']! + 1 })
      expect(Object.values(await counts(awayId)).every((count) => count === 0)).toBe(true)
      const [row] = await test.sql('SELECT height_cm FROM soldier WHERE id = $1', [keptId])
      expect(row).toEqual({ height_cm: 181 })
      await office.post(`/api/merges/${(answer.body as { id: string }).id}/undo`, { reason: 'Two' }, 200)
      expect(await everyRow(test)).toEqual(before)
    },
  )
})

describe('what no one soldier can be is told before the merge', () => {
  const refusedFor = async (one: string, other: string, rule: string) => {
    for (const [keptId, awayId] of [
      [one, other],
      [other, one],
    ] as const) {
      expect((await office.refused(409, 'POST', `/api/soldiers/${keptId}/merges`, { awayId, reason: 'No' })).type).toBe(
        `urn:reviewstand:problem:${rule}`,
      )
    }
  }

  it('one whose personal data was removed', async () => {
    const [one, other] = [await newcomer(), await newcomer()]
    await office.post(`/api/soldiers/${other}/changes`, { from: '2026-06-01', left: 'separated' }, 200)
    const { rosterNumber } = await office.get<{ rosterNumber: string }>(`/api/soldiers/${other}`)
    await office.post(`/api/soldiers/${other}/removal`, { reason: 'Left', confirmation: rosterNumber }, 200)
    await refusedFor(one, other, 'soldier-removed')
  })

  it('both named in one ceremony, on posts, as alternates, or one as either', async () => {
    const [one, other] = [await newcomer(), await newcomer()]
    for (const make of [
      () => ceremony([post(1, one), post(2, other)]),
      () => ceremony([post(1, one)], [other]),
      () => ceremony([post(1, setting.candidateId)], [one, other]),
    ]) {
      const { id } = await make()
      await refusedFor(one, other, 'ceremonies')
      await test.sql('DELETE FROM alternate WHERE ceremony_id = $1', [id])
      await test.sql('DELETE FROM post WHERE ceremony_id = $1', [id])
    }
  })

  it('candidate or grader, and second grader, of one booking', async () => {
    const [one, other, third] = [await newcomer(), await newcomer(), await newcomer()]
    const booking = await book(await testDay('2026-07-20'), one, third)
    await office.post(`/api/bookings/${booking.id}/second-grader`, { graderId: other }, 200)
    await refusedFor(one, other, 'met-at-tests')
    await refusedFor(third, other, 'met-at-tests')
  })

  it('but a booking that was cancelled is put aside, and back when it is undone', async () => {
    const [one, other] = [await newcomer(), await newcomer()]
    const booking = await book(await testDay('2026-07-21'), one, other)
    await office.post(`/api/bookings/${booking.id}/cancel`, { reason: 'Storm' }, 200)
    for (const [keptId, awayId] of [
      [one, other],
      [other, one],
    ] as const) {
      const before = await everyRow(test)
      const answer = await merge(keptId, awayId)
      expect(answer.status, JSON.stringify(answer.body)).toBe(201)
      await office.post(`/api/merges/${(answer.body as { id: string }).id}/undo`, { reason: 'Two' }, 200)
      expect(await everyRow(test)).toEqual(before)
    }
  })

  it('and who were merged the wrong way round are merged the other way once that is undone', async () => {
    const [one, other] = [await newcomer(), await newcomer()]
    const wrong = await office.post(`/api/soldiers/${other}/merges`, { awayId: one, reason: 'Twice' })
    await office.post(`/api/merges/${wrong.id}/undo`, { reason: 'The wrong way' }, 200)
    const right = await office.post(`/api/soldiers/${one}/merges`, { awayId: other, reason: 'Twice' })
    await office.post(`/api/merges/${right.id}/undo`, { reason: 'Two' }, 200)
    const { items } = await office.get<{ items: { id: string }[] }>('/api/merges')
    expect(items.map(({ id }) => id)).toEqual(expect.arrayContaining([wrong.id, right.id]))
  })
})
