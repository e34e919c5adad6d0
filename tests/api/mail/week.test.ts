import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Coaching } from '../../../server/contract/coaching/coaching.ts'
import type { Retest } from '../../../server/contract/standards/certifications.ts'
import type { TestDay } from '../../../server/contract/test-days/test-days.ts'
import type { Client } from '../../support/client.ts'
import {
  carryOver,
  makeSoldier,
  makeTestSetting,
  makeUnit,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import { type MailServer, type Received, startMailServer } from '../../support/mail-server.ts'
import { buildMailWorld, type MailWorld } from '../../support/mail-world.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

/** A Monday, an hour before the mail of the morning in UTC. */
const NOW = '2026-06-15T05:00:00Z'

let server: MailServer
let world: MailWorld
let setting: TestSetting
let outside: TestSetting
let office: Client
let leader: Client
let sponsor: Client
let west: Client
const mails: Record<string, Received[]> = {}

beforeAll(async () => {
  server = await startMailServer()
  world = await buildMailWorld(server, NOW)
  setting = await makeTestSetting(world.office)
  outside = await makeTestSetting(world.office)
  const unitWest = await makeUnit(world.office, { name: 'West', timeZone: 'America/New_York' })
  const inWest = await makeSoldier(world.office, unitWest)
  await carryOver(world.office, inWest, setting.certification)
  office = await world.signedIn({ name: 'clerk', roles: ['office'] })
  leader = await world.signedIn({ name: 'lead', roles: ['leader'], unitId: setting.unitId })
  sponsor = await world.signedIn({ name: 'coach', roles: ['sponsor'], soldierId: setting.sponsorId })
  west = await world.signedIn({ name: 'west', roles: ['leader'], unitId: unitWest })
  const quiet = await world.signedIn({ name: 'quiet', roles: ['office'] })
  for (const [client, name] of [
    [office, 'office'],
    [leader, 'leader'],
    [sponsor, 'sponsor'],
    [west, 'west'],
    [quiet, 'quiet'],
  ] as const) {
    await world.confirm(client, `${name}@unit.example`)
  }
  await quiet.put('/api/account/mail/choices', { choices: [{ kind: 'week', timing: 'never' }] }, 200)
  // A NO-GO, so that a retest is open; a sheet that is held, for want of a sponsor; a test day in the week.
  await putSheet(world.office, setting.sheet({ ...times('2026-06-01'), ...NO_GO_MARKS }))
  const held = await makeTestSetting(world.office)
  await putSheet(world.office, held.sheet({ ...times('2026-06-09'), sponsorId: null }))
  const { id } = await world.office.post('/api/test-days', {
    on: '2026-06-18',
    unitId: setting.unitId,
    place: 'South Field',
  })
  await world.office.post(`/api/test-days/${id}/bookings`, {
    candidateId: setting.candidateId,
    standard: setting.standard,
    graderId: setting.graderId,
  })
  await carryOver(world.office, setting.candidateId, outside.certification, { validThrough: '2026-07-10' })

  world.wait(0.9)
  await world.round()
  expect(server.received.filter(({ mail }) => /week|what is new/.test(mail.subject ?? ''))).toEqual([])
  world.wait(0.2)
  const second = world.another()
  await Promise.all([world.round(), second.round()])
  await second.close()
  for (const name of ['office', 'leader', 'sponsor', 'west', 'quiet'])
    mails[name] = await world.mailsTo(`${name}@unit.example`)
})
afterAll(async () => {
  await world.close()
  await server.close()
})

const weekOf = (name: string) =>
  mails[name]!.filter(({ mail }) => mail.subject === 'Reviewstand: your week from Mon 15 June 2026')
const textOf = (name: string) => weekOf(name)[0]!.mail.text!
const nameOf = async (id: string) => (await world.office.get<{ givenName: string }>(`/api/soldiers/${id}`)).givenName

describe('on Monday morning', () => {
  it('the week comes once, to who has a part in it and wants it', () => {
    for (const name of ['office', 'leader', 'sponsor']) expect(weekOf(name), name).toHaveLength(1)
    expect(weekOf('quiet')).toEqual([])
  })

  it('comes by the clock of the unit', async () => {
    expect(weekOf('west')).toEqual([])
    world.wait(4)
    const late = await world.mailsTo('west@unit.example')
    expect(late.map(({ mail }) => mail.subject)).toContain('Reviewstand: your week from Mon 15 June 2026')
  })

  it('tells the office what its desk counts', async () => {
    const count = async (path: string) => (await office.get<{ items: unknown[] }>(path)).items.length
    const text = textOf('office')
    const held = await count('/api/sheets?state=held&limit=500')
    expect(held).toBeGreaterThan(0)
    expect(text).toContain(held === 1 ? '1 sheet is held' : `${held} sheets are held`)
    const { items } = await office.get<{ items: Retest[] }>('/api/retests?limit=500')
    const soon = items.filter(({ due, pastDue }) => pastDue || due <= '2026-06-22').length
    expect(items.length).toBeGreaterThan(0)
    expect(/retests? (is|are) (past|due)/.test(text)).toBe(soon > 0)
    const { items: days } = await office.get<{ items: TestDay[] }>(
      '/api/test-days?from=2026-06-15&through=2026-06-22&limit=50',
    )
    expect(days).toHaveLength(1)
    expect(text).toContain(`Test day Thu 18 June 2026, South Field: ${days[0]!.freeSlots} slot`)
  })

  it('tells the leader how many are certified, as the page has it, and nothing of other units', async () => {
    const { counts } = await leader.get<{ counts: { status: string; required: boolean; count: number }[] }>(
      '/api/readiness?limit=1',
    )
    const required = counts.filter((one) => one.required)
    const all = required.reduce((sum, { count }) => sum + count, 0)
    const can = required.filter(({ status }) => status === 'certified').reduce((sum, { count }) => sum + count, 0)
    const lines = [...textOf('leader').matchAll(/: (\d+) of (\d+) required are certified/g)]
    expect(lines.reduce((sum, [, one]) => sum + Number(one), 0)).toBe(can)
    expect(lines.reduce((sum, [, , one]) => sum + Number(one), 0)).toBe(all)
    expect(textOf('leader')).not.toContain(await nameOf(outside.candidateId))
  })

  it('tells the sponsor of each candidate the test that comes next, and what to see to', async () => {
    const { items } = await sponsor.get<Coaching>('/api/coaching')
    expect(items).toHaveLength(1)
    const line = textOf('sponsor')
      .split('\n')
      .find((one) => one.includes(items[0]!.name))!
    expect(line).toContain('Thu 18 June 2026')
    expect(line.includes('See to')).toBe(items[0]!.warnings.length > 0)
    expect(textOf('sponsor')).not.toContain(await nameOf(outside.candidateId))
  })

  it('says what changed in the week, and names nobody in the subject', async () => {
    expect(textOf('sponsor')).toContain('WHAT CHANGED IN THE LAST WEEK')
    for (const { mail } of Object.values(mails).flat()) expect(mail.subject).not.toMatch(/Ashford|No\. \d/)
  })

  it('certifications that lapse in thirty days are told of once', async () => {
    const daily = (list: Received[]) => list.find(({ mail }) => mail.text?.includes('LAPSES WITHIN 30 DAYS'))
    const first = daily(mails.leader!)
    expect(first!.mail.text).toContain(
      `${await nameOf(setting.candidateId)}, Certification: valid through Fri 10 July 2026.`,
    )
    world.wait(24)
    expect(daily(await world.mailsTo('leader@unit.example'))).toBeUndefined()
  })
})
