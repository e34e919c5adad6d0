import ICAL from 'ical.js'
import request from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import {
  makeCertification,
  makeSoldier,
  makeTestSetting,
  makeUnit,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import { outcomeOnly, times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
let certification: string
let commander: Client
let leader: Client
let strange: Client
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  const { unitId, standard } = setting
  certification = await makeCertification(test.office, {
    standards: [standard],
    approval: 'required',
    extensionDays: 40,
    title: 'Sword',
  })
  const elsewhere = await makeUnit(test.office)
  commander = await test.signedIn({ name: 'commander', roles: ['commander'], unitId })
  leader = await test.signedIn({ name: 'leader', roles: ['leader'], unitId })
  strange = await test.signedIn({ name: 'strange', roles: ['commander', 'leader'], unitId: elsewhere })
})
afterAll(() => test.close())

/** Somebody with an account who passed, and waits. */
async function earned() {
  const id = await makeSoldier(test.office, setting.unitId)
  const client = await test.signedIn({ name: `soldier ${id}`, roles: ['soldier'], soldierId: id })
  const sheet = setting.sheet({ candidateId: id, ...times('2026-06-01'), ...outcomeOnly('GO') })
  return { id, client, sheetId: (await putSheet(test.office, sheet)).id }
}

/** By kind: all of a test are of one moment. */
const told = async (client: Client, aboutId: string) =>
  (await client.get<{ items: Notice[] }>('/api/notices')).items
    .filter((one) => one.aboutId === aboutId && one.certification === certification)
    .sort((a, b) => (a.kind < b.kind ? -1 : 1))

const decide = (decision: 'approve' | 'refuse', sheetId: string) =>
  commander.post<{ items: [{ id: string }] }>('/api/approvals', {
    decision,
    reason: 'As seen',
    items: [{ certification, sheetId }],
  })

const extend = (soldierId: string) =>
  commander.post<{ id: string }>('/api/extensions', {
    soldierId,
    certification,
    days: 10,
    kind: 'deployment',
    reason: 'Away',
  })

describe('word of an award that waits', () => {
  it('goes to commanders above the soldier and to nobody else, until it is decided', async () => {
    const { id, client, sheetId } = await earned()
    const [waiting] = await told(commander, id)
    expect(waiting).toMatchObject({
      kind: 'award waiting',
      toCommanders: true,
      toOffice: false,
      toLeaders: false,
      day: '2026-06-01',
      over: false,
    })
    for (const other of [client, leader, strange, test.office]) expect(await told(other, id)).toEqual([])
    const { items } = await decide('approve', sheetId)
    expect(await told(commander, id)).toMatchObject([{ kind: 'award waiting', over: true }])
    await commander.post(`/api/approvals/${items[0].id}/take-back`, { reason: 'Wrong soldier' }, 200)
    expect(await told(commander, id)).toMatchObject([
      { kind: 'award waiting', over: false },
      { kind: 'award waiting', over: false },
    ])
  })

  it('does not go to a commander about their own', async () => {
    const id = await makeSoldier(test.office, setting.unitId)
    const roles = ['commander', 'soldier']
    const self = await test.signedIn({ name: 'commander who tests', roles, unitId: setting.unitId, soldierId: id })
    await putSheet(test.office, setting.sheet({ candidateId: id, ...times('2026-06-01'), ...outcomeOnly('GO') }))
    expect(await told(self, id)).toEqual([])
    expect(await told(commander, id)).toHaveLength(1)
  })
})

describe('word of what a commander said', () => {
  it('goes to the soldier and to whoever leads them', async () => {
    const { id, client, sheetId } = await earned()
    await decide('approve', sheetId)
    const approved = { kind: 'award approved', day: '2026-06-15', standard: null, sheetId: null }
    expect(await told(client, id)).toMatchObject([{ ...approved, isSelf: true }])
    expect(await told(leader, id)).toMatchObject([{ ...approved, isSelf: false }])
    const extension = await extend(id)
    expect(await told(client, id)).toMatchObject([approved, { kind: 'award extended', day: '2027-06-11' }])
    await commander.post(`/api/extensions/${extension.id}/take-back`, { reason: 'Back early' }, 200)
    expect((await told(client, id)).map(({ kind }) => kind)).toEqual([
      'award approved',
      'award extended',
      'extension taken back',
    ])
    for (const other of [strange, test.office]) expect(await told(other, id)).toEqual([])
  })

  it('says of a refusal, and of taking it back, what there is to know', async () => {
    const { id, client, sheetId } = await earned()
    const { items } = await decide('refuse', sheetId)
    expect(await told(client, id)).toMatchObject([{ kind: 'award refused', day: '2026-06-01' }])
    await commander.post(`/api/approvals/${items[0].id}/take-back`, { reason: 'Misread' }, 200)
    expect((await told(client, id)).map(({ kind }) => kind)).toEqual(['award refused', 'decision taken back'])
  })
})

describe('a calendar', () => {
  const linkOf = async (client: Client) =>
    `/calendar/${(await client.post<{ token: string }>('/api/account/calendar')).token}.ics`
  async function entries(path: string): Promise<string[]> {
    const { text } = await request(test.app.server).get(path)
    return new ICAL.Component(ICAL.parse(text))
      .getAllSubcomponents('vevent')
      .map((one) => new ICAL.Event(one))
      .map(({ startDate, summary }) => `${startDate.toString()} ${summary}`)
  }

  it('has what waits for a commander as one entry that names nobody', async () => {
    const link = await linkOf(strange)
    expect(await entries(link)).toEqual([])
    const { sheetId } = await earned()
    expect(await entries(await linkOf(commander))).toContainEqual(
      expect.stringMatching(/^2026-06-15 (A certification waits|\d+ certifications wait) for your approval$/),
    )
    expect(await entries(link)).toEqual([])
    await decide('approve', sheetId)
  })

  it('has for the soldier what waits, what is in force, and the last day while it is extended', async () => {
    const { id, client, sheetId } = await earned()
    const link = await linkOf(client)
    const signed = async () => (await entries(link)).filter((one) => one.endsWith(': Sword'))
    expect(await signed()).toEqual(['2026-06-01 Certification earned: Sword'])
    await decide('approve', sheetId)
    expect(await signed()).toEqual(['2026-06-15 Certification in force: Sword'])
    const extension = await extend(id)
    expect(await signed()).toEqual([
      '2026-06-15 Certification in force: Sword',
      '2027-06-11 Last day of your certification: Sword',
    ])
    await commander.post(`/api/extensions/${extension.id}/take-back`, { reason: 'Back early' }, 200)
    expect(await signed()).toEqual(['2026-06-15 Certification in force: Sword'])
  })
})
