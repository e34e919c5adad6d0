import ICAL from 'ical.js'
import request from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { writeCalendar } from '../../../server/calendar/services/write-calendar.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, makeUnit, putSheet } from '../../support/factories.ts'
import { outcomeOnly, times } from '../../support/sheet-body.ts'

const NOW = '2026-06-15T12:00:00Z'

let test: TestApp
let setting: Awaited<ReturnType<typeof makeTestSetting>>
let candidate: Client
let sponsor: Client
let bystander: Client
beforeAll(async () => {
  test = await buildTestApp({ now: NOW })
  const { office } = test
  setting = await makeTestSetting(office)
  const { candidateId, sponsorId, graderId, standard, certification, unitId } = setting
  await putSheet(office, { ...setting.sheet(times('2026-06-10')), ...outcomeOnly('NO-GO'), majors: [], minors: [] })
  const { id: testDay } = await office.post('/api/test-days', {
    on: '2026-06-20',
    unitId,
    place: 'Field, east; gate 2',
  })
  await office.post(`/api/test-days/${testDay}/bookings`, { candidateId, standard, graderId })
  await office.post('/api/ceremonies', {
    title: 'Retirement Review',
    unitId,
    reportsAt: '2026-07-01T13:00:00Z',
    startsAt: '2026-07-01T14:00:00Z',
    endsAt: '2026-07-01T15:00:00Z',
    posts: [{ title: 'Guide', row: 1, place: 1, certification, soldierId: candidateId }],
    rehearsals: [{ startsAt: '2026-06-30T14:00:00Z', endsAt: '2026-06-30T15:00:00Z', place: 'Hall' }],
  })
  const other = await makeSoldier(office, await makeUnit(office))
  candidate = await test.signedIn({ name: 'candidate', roles: ['soldier'], soldierId: candidateId })
  sponsor = await test.signedIn({ name: 'sponsor', roles: ['sponsor'], soldierId: sponsorId })
  bystander = await test.signedIn({ name: 'bystander', roles: ['soldier'], soldierId: other })
})
afterAll(() => test.close())

const linkOf = async (client: Client) =>
  `/calendar/${(await client.post<{ token: string }>('/api/account/calendar')).token}.ics`
const fetchFeed = (path: string) => request(test.app.server).get(path)
const eventsOf = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((one) => new ICAL.Event(one))
const titlesOf = (text: string) => eventsOf(text).map(({ summary }) => summary)

it('names of a right-to-left script in a calendar leave the figures beside them in their order', () => {
  const event = {
    id: 'one',
    title: 'Test of כהן, 12 of 13',
    place: 'מגרש 7',
    day: '2026-06-20',
    startsAt: null,
    endsAt: null,
    note: 'Slot 3, דוד, 09:40',
    cancelled: false,
    path: '/',
  }
  const [written] = eventsOf(writeCalendar([event], new Date(NOW), 'http://127.0.0.1'))
  expect([written!.summary, written!.location, written!.description]).toEqual([
    'Test of \u2068כהן\u2069, 12 of 13',
    '\u2068מגרש\u2069 7',
    'Slot 3, \u2068דוד\u2069, 09:40',
  ])
})

describe('a calendar link', () => {
  it('tells a candidate of test, retest, rehearsal and ceremony, without a session', async () => {
    const answer = await fetchFeed(await linkOf(candidate)).expect(200)
    expect(answer.headers['content-type']).toBe('text/calendar; charset=utf-8')
    const events = eventsOf(answer.text)
    const said = events.map(({ summary, startDate, endDate }) => `${startDate} ${endDate} ${summary}`)
    expect(said.map((one) => one.replace(/: Short.*|: The.*/, ''))).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^2026-06-17 2026-06-18 Retest possible from today/),
        expect.stringMatching(/^2026-06-20 2026-06-21 Test/),
        expect.stringMatching(/^2026-06-30T14:00:00Z 2026-06-30T15:00:00Z Rehearsal: Retirement Review/),
        expect.stringMatching(/^2026-07-01T13:00:00Z 2026-07-01T15:00:00Z Retirement Review/),
        expect.stringMatching(/^2026-07-10 2026-07-11 Retest due/),
      ]),
    )
    expect(events).toHaveLength(5)
    expect(events.find(({ location }) => location?.startsWith('Field'))?.location).toBe('Field, east; gate 2')
  })

  it('tells a sponsor of the candidate’s test and retest, and names nobody', async () => {
    const { text } = await fetchFeed(await linkOf(sponsor)).expect(200)
    expect(titlesOf(text).filter((title) => /your candidate/.test(title))).toHaveLength(3)
    expect(text).not.toContain('Ashford')
  })

  it('tells the office of every test day and ceremony, and somebody not concerned of nothing', async () => {
    const office = titlesOf((await fetchFeed(await linkOf(test.office)).expect(200)).text)
    expect(office.some((title) => title.startsWith('Test day, '))).toBe(true)
    expect(office).toContain('Retirement Review')
    const nothing = await fetchFeed(await linkOf(bystander)).expect(200)
    expect(titlesOf(nothing.text)).toEqual([])
  })

  it('says the same of the same thing each time', async () => {
    const path = await linkOf(candidate)
    const [first, second] = [await fetchFeed(path), await fetchFeed(path)]
    expect(first.text).toBe(second.text)
    expect(new Set(eventsOf(first.text).map(({ uid }) => uid)).size).toBe(5)
  })

  it('ends when a new one is made, when it is revoked, and is unknown otherwise', async () => {
    const first = await linkOf(candidate)
    const second = await linkOf(candidate)
    await fetchFeed(first).expect(404)
    await fetchFeed(second).expect(200)
    expect(await candidate.get('/api/account/calendar')).toEqual({ createdAt: '2026-06-15T12:00:00.000Z' })
    await candidate.tries('DELETE', '/api/account/calendar')
    await fetchFeed(second).expect(404)
    expect(await candidate.get('/api/account/calendar')).toEqual({ createdAt: null })
    for (const token of ['x', 'A'.repeat(43), '..%2f..']) await fetchFeed(`/calendar/${token}.ics`).expect(404)
  })

  it('is kept as a hash only, and goes on record without the token', async () => {
    const path = await linkOf(candidate)
    const token = path.slice('/calendar/'.length, -'.ics'.length)
    const rows = await test.sql<{ text: string }>(
      `SELECT l::text AS text FROM calendar_link l UNION ALL SELECT r::text FROM record_entry r WHERE action LIKE 'calendar.%'`,
    )
    expect(rows.length).toBeGreaterThan(1)
    for (const { text } of rows) expect(text).not.toContain(token)
  })
})

describe('the calendar as text', () => {
  const event = {
    id: 'test-1',
    title: 'Øvelse, Prüfung; “Säbel” \\ '.repeat(6).trim(),
    place: 'Conference Room - 3B\nCome Prepared.',
    day: '2026-03-08',
    startsAt: '2026-03-08T06:30:00Z',
    endsAt: '2026-03-08T07:30:00Z',
    note: 'a: "b"',
    cancelled: true,
    path: '/candidates/1',
  }
  const text = writeCalendar([event], new Date(NOW), 'https://unit.example')

  it('has lines of at most 75 octets, ended by CR LF and folded between characters (RFC 5545, 3.1)', () => {
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    const lines = text.split('\r\n')
    expect(lines.some((line) => line.startsWith(' '))).toBe(true)
    for (const line of lines) {
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
      expect(line).not.toContain('\ufffd')
    }
  })

  it('escapes backslash, semicolon, comma and new line, and no more (RFC 5545, 3.3.11)', () => {
    const unfolded = text.replace(/\r\n[ \t]/g, '')
    expect(unfolded).toContain('LOCATION:Conference Room - 3B\\nCome Prepared.\r\n')
    expect(unfolded).toContain('SUMMARY:Øvelse\\, Prüfung\\; “Säbel” \\\\ Øvelse')
    expect(unfolded).toContain('DESCRIPTION:a: "b"\r\n')
  })

  it('is read back as it was meant, across the change of clocks, and what was called off as cancelled', () => {
    const [read] = eventsOf(text)
    expect(read).toMatchObject({ summary: event.title, location: event.place, uid: 'test-1@reviewstand' })
    expect(read!.startDate.toJSDate().toISOString()).toBe('2026-03-08T06:30:00.000Z')
    expect(read!.component.getFirstPropertyValue('status')).toBe('CANCELLED')
    expect(text).toContain('DTSTAMP:20260615T120000Z')
  })

  it('has the dates of whole days, in whatever zone the server runs', () => {
    const whole = writeCalendar([{ ...event, startsAt: null, endsAt: null, day: '2026-12-31' }], new Date(NOW), 'x')
    expect(whole).toMatch(/DTSTART;VALUE=DATE:20261231\r\n/)
  })
})
