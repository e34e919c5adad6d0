import pg from 'pg'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

let test: TestApp
let office: Client
let setting: TestSetting
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  office = test.office
  setting = await makeTestSetting(office)
})
afterAll(() => test.close())

const newcomer = () => makeSoldier(office, setting.unitId)
const statuses = (answers: { status: number }[]) => answers.map(({ status }) => status).sort()
const testDay = (on: string) => office.post('/api/test-days', { on, unitId: setting.unitId }).then(({ id }) => id)
const slotOn = async (day: string, graderIds: string[] = []) => {
  const hours = { from: '08:00', to: '08:30', minutes: 30, graderIds }
  return (await office.post<{ items: { id: string }[] }>(`/api/test-days/${day}/slots`, hours)).items[0]!.id
}
const ceremonyWith = (soldierId: string, more: object = {}) => ({
  title: 'Review',
  unitId: setting.unitId,
  startsAt: '2026-07-01T10:00:00Z',
  endsAt: '2026-07-01T11:00:00Z',
  posts: [{ title: 'Guide', row: 1, place: 1, certification: setting.certification, soldierId }],
  ...more,
})

describe('long work', () => {
  it('and somebody who waits for its end do not keep sheets from being stored', async () => {
    const long = new pg.Client(test.databaseUrl)
    await long.connect()
    // What storing a large file holds until its end.
    await long.query('BEGIN; SELECT pg_advisory_xact_lock_shared(7300001)')
    const [kept, awayId] = [await newcomer(), await newcomer()]
    const waiting = office.tries('POST', `/api/soldiers/${kept}/merges/preview`, { awayId })
    const isQueued = `SELECT 1 FROM pg_locks WHERE locktype = 'advisory' AND NOT granted
      AND database = (SELECT oid FROM pg_database WHERE datname = current_database())`
    while ((await test.sql(isQueued)).length === 0);
    expect((await putSheet(office, setting.sheet(times('2026-03-03')))).state).toBe('counted')
    await long.query('COMMIT')
    await long.end()
    expect((await waiting).status).toBe(200)
  })
})

describe('two of the office at the same time', () => {
  it('book one slot: one of them is told', async () => {
    for (let round = 0; round < 4; round++) {
      const day = await testDay(`2026-08-0${1 + round}`)
      const slotId = await slotOn(day)
      const candidates = await Promise.all(Array.from({ length: 4 }, newcomer))
      const answers = await Promise.all(
        candidates.map((candidateId) =>
          office.tries('POST', `/api/test-days/${day}/bookings`, { candidateId, standard: setting.standard, slotId }),
        ),
      )
      expect(statuses(answers)).toEqual([201, 409, 409, 409])
    }
  })

  it('call a day off and book on it: nobody stays booked on a day that does not take place', async () => {
    for (let round = 0; round < 4; round++) {
      const day = await testDay(`2026-09-0${1 + round}`)
      const candidates = await Promise.all(Array.from({ length: 3 }, newcomer))
      const book = (candidateId: string) =>
        office.tries('POST', `/api/test-days/${day}/bookings`, { candidateId, standard: setting.standard })
      await book(candidates[0]!)
      const [calledOff, ...booked] = await Promise.all([
        office.tries('POST', `/api/test-days/${day}/call-off`, { reason: 'Storm' }),
        book(candidates[1]!),
        book(candidates[2]!),
      ])
      expect([calledOff.status, ...booked.map(({ status }) => status)].every((status) => status < 500)).toBe(true)
      const left = await test.sql(
        `SELECT b.id FROM booking b JOIN test_day d ON d.id = b.test_day_id
         WHERE d.id = $1 AND d.called_off_at IS NOT NULL AND b.state = 'booked'`,
        [day],
      )
      expect(left, JSON.stringify(calledOff.body)).toEqual([])
    }
  })

  it('name one soldier twice in a ceremony, on a post and as an alternate: one of them is told', async () => {
    const soldierId = await newcomer()
    const { id } = await office.post('/api/ceremonies', ceremonyWith(await newcomer()))
    const { version, formation } = await office.get<{ version: number; formation: { id: string }[] }>(
      `/api/ceremonies/${id}`,
    )
    const answers = await Promise.all([
      office.tries('POST', `/api/ceremonies/${id}/name`, {
        version,
        names: [{ postId: formation[0]!.id, soldierId }],
      }),
      office.tries('PUT', `/api/ceremonies/${id}/alternates`, { version, alternates: [{ soldierId }] }),
    ])
    expect(statuses(answers)).toEqual([200, 409])
  })

  it('name somebody who is merged away just then: it is told, and does not fail', async () => {
    const [keptId, awayId] = [await newcomer(), await newcomer()]
    const held = new pg.Client(test.databaseUrl)
    await held.connect()
    // Keeps the ceremony from being stored, whose people were found on the roster by then.
    await held.query('BEGIN; LOCK TABLE ceremony IN EXCLUSIVE MODE')
    const naming = office.tries('POST', '/api/ceremonies', ceremonyWith(awayId))
    while (
      (await test.sql(`SELECT 1 FROM pg_locks WHERE relation = 'ceremony'::regclass AND NOT granted`)).length === 0
    );
    await office.post(`/api/soldiers/${keptId}/merges`, { awayId, reason: 'Entered twice' })
    await held.query('COMMIT')
    await held.end()
    const { status, body } = await naming
    expect(status, JSON.stringify(body)).toBe(422)
    expect(body).toMatchObject({ type: 'urn:reviewstand:problem:unknown-person' })
  })

  it('merge two entries while others name the one given up: nothing fails, and nothing is lost', async () => {
    for (let round = 0; round < 6; round++) {
      const [keptId, awayId] = [await newcomer(), await newcomer()]
      const { sponsorId, standard } = setting
      const day = await testDay(`2026-10-0${1 + round}`)
      const on = (what: string, body: object) => office.tries('POST', `/api/soldiers/${awayId}/${what}`, body)
      const acts: readonly [table: string, act: () => ReturnType<Client['tries']>][] = [
        ['post', () => office.tries('POST', '/api/ceremonies', ceremonyWith(awayId))],
        ['absence', () => on('absences', { from: '2026-06-01', through: '2026-06-03', kind: 'leave' })],
        ['coaching_note', () => on('coaching-notes', { on: '2026-06-10', standard, text: 'Slower' })],
        ['review', () => on('reviews', { standard, on: '2026-03-05', note: 'Seen' })],
        ['sponsorship', () => on('sponsorships', { sponsorId, from: '2026-01-01' })],
        ['booking', () => office.tries('POST', `/api/test-days/${day}/bookings`, { candidateId: awayId, standard })],
        [
          'sheet',
          () =>
            office.tries(
              'PUT',
              `/api/sheets/${crypto.randomUUID()}`,
              setting.sheet({ candidateId: awayId, ...times('2026-05-02') }),
            ),
        ],
      ]
      const [merged, ...answers] = await Promise.all([
        office.tries('POST', `/api/soldiers/${keptId}/merges`, { awayId, reason: 'Entered twice' }),
        ...acts.map(([, act]) => act()),
      ])
      expect(merged.status, JSON.stringify(merged.body)).toBe(201)
      for (const [index, [table]] of acts.entries()) {
        const { status, body } = answers[index]!
        expect(status, `${table} ${JSON.stringify(body)}`).toBeOneOf([201, 404, 422])
        const column = ['coaching_note', 'sponsorship', 'booking', 'sheet'].includes(table)
          ? 'candidate_id'
          : 'soldier_id'
        const rows = await test.sql(`SELECT 1 FROM ${table} WHERE ${column} = $1`, [keptId])
        expect(rows.length, `${table} ${status}`).toBe(status === 201 ? 1 : 0)
      }
      const sheet = answers.at(-1)!
      expect(sheet.status, JSON.stringify(sheet.body)).toBe(201)
    }
    expect(test.takeUnexpected()).toEqual([])
  })
})
