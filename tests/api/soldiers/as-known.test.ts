import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { AsKnown } from '../../../server/contract/soldiers/as-known.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { type Ground, makeGround, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

const DAY_MS = 86_400_000
const BEGINS = '2026-02-20T10:00:00Z'

let test: TestApp
let second: Client
let ground: Ground
let setting: TestSetting

beforeAll(async () => {
  test = await buildTestApp({ now: BEGINS })
  ground = await makeGround(test.office)
  second = await test.signedIn({ name: 'second', roles: ['office'] })
})
beforeEach(async () => {
  await at('2026-03-01T10:00:00Z')
  setting = await makeTestSetting(test.office, ground)
})
afterAll(() => test?.close())

/** Goes on at an instant; sessions last. */
async function at(instant: string): Promise<void> {
  test.clock.now = new Date(instant)
  await test.sql('UPDATE session SET created_at = $1, seen_at = $1, confirmed_at = $1', [test.clock.now])
}

const asKnown = (on: string, asOf = on) =>
  test.office.get<AsKnown>(`/api/soldiers/${setting.candidateId}/as-known?on=${on}&asOf=${asOf}`)

describe('how a soldier stood as known on a day', () => {
  it('lacks a sheet that came in later, and says that it made the difference', async () => {
    const { certification, standard } = setting
    await at('2026-03-05T10:00:00Z')
    const late = await putSheet(test.office, setting.sheet({ ...times('2026-03-02'), ...NO_GO_MARKS }))
    const told = await asKnown('2026-03-04')
    expect(told.until).toBe('2026-03-05T00:00:00+00:00')
    expect(told.known).toEqual({ certifications: [], sheets: [] })
    const retest = { standard, attempt: 2, on: '2026-03-02', earliest: '2026-03-09', due: '2026-04-01' }
    expect(told.now.certifications).toMatchObject([{ certification, status: 'retest due', retests: [retest] }])
    expect(told.now.sheets).toMatchObject([{ id: late.id, outcome: 'NO-GO', state: 'counted', revision: 1 }])
    expect(told.differences).toMatchObject([
      {
        at: '2026-03-05T10:00:00.000Z',
        entered: [{ kind: 'sheet', sheetId: late.id, outcome: 'NO-GO', day: '2026-03-02' }],
        certifications: [{ certification, before: null, after: { status: 'retest due' } }],
        sheets: [{ id: late.id, before: null, after: { outcome: 'NO-GO' } }],
      },
    ])
    expect(told.complete).toBe(true)
    expect(await asKnown('2026-03-05', '2026-03-04')).toMatchObject({ known: told.now, differences: [] })
  })

  it('has a sheet as it was before it was amended, and leaves out what changes nothing on the day', async () => {
    const { certification } = setting
    await at('2026-03-02T12:00:00Z')
    const { id } = await putSheet(test.office, setting.sheet({ ...times('2026-03-02'), ...NO_GO_MARKS }))
    await at('2026-03-09T10:00:00Z')
    await amend(test.office, second, id, setting.sheet(times('2026-03-02')))
    await at('2026-03-10T10:00:00Z')
    await test.office.post('/api/suspensions', {
      ...{ soldierId: setting.candidateId, certification, from: '2026-03-10', reason: 'Inquiry' },
    })
    const told = await asKnown('2026-03-03')
    expect(told.known.certifications).toMatchObject([{ status: 'retest due' }])
    expect(told.known.sheets).toMatchObject([{ id, outcome: 'NO-GO', revision: 1 }])
    expect(told.now.certifications).toMatchObject([{ status: 'certified', awardedOn: '2026-03-02' }])
    expect(told.now.sheets).toMatchObject([{ id, outcome: 'GO', revision: 2 }])
    // The suspension of a later day makes no difference to this one.
    expect(told.differences.map(({ entered }) => entered.map(({ kind }) => kind))).toEqual([['sheet']])
    const after = await asKnown('2026-03-09', '2026-03-12')
    expect(after.known.certifications).toMatchObject([{ status: 'certified' }])
    expect(after.now.certifications).toMatchObject([{ status: 'suspended' }])
  })

  it('has the due day as it was before the office moved it, and a held sheet before it was decided', async () => {
    const { certification, standard } = setting
    await at('2026-03-02T12:00:00Z')
    await putSheet(test.office, setting.sheet({ ...times('2026-03-02'), ...NO_GO_MARKS }))
    const held = await putSheet(
      test.office,
      setting.sheet({ ...times('2026-03-02'), graderId: setting.sponsorId, secondOf: null }),
    )
    expect(held.state).toBe('held')
    await at('2026-03-06T10:00:00Z')
    const move = { certification, standard, due: '2026-04-20', reason: 'On a course' }
    await test.office.post(`/api/soldiers/${setting.candidateId}/due-days`, move)
    await second.post(`/api/sheets/${held.id}/decision`, { decision: 'reject', reason: 'Their sponsor graded' }, 200)
    const told = await asKnown('2026-03-05', '2026-03-05')
    expect(told.known.certifications[0]?.retests).toMatchObject([{ due: '2026-04-01' }])
    expect(told.now.certifications[0]?.retests).toMatchObject([{ due: '2026-04-20' }])
    expect(told.known.sheets.find(({ id }) => id === held.id)?.state).toBe('held')
    expect(told.now.sheets.find(({ id }) => id === held.id)?.state).toBe('rejected')
    expect(told.differences).toHaveLength(1)
  })

  it('cannot be asked of a day to come, nor once personal data was removed', async () => {
    await test.office.refused(400, 'GET', `/api/soldiers/${setting.candidateId}/as-known?on=2027-01-01`)
    await test.office.refused(400, 'GET', `/api/soldiers/${setting.candidateId}/as-known`)
    await test.office.refused(404, 'GET', `/api/soldiers/${randomUUID()}/as-known?on=2026-03-01`)
    const left = { from: '2026-03-01', left: 'transferred' }
    await test.office.post(`/api/soldiers/${setting.candidateId}/changes`, left, 200)
    await at(new Date(test.clock.now.getTime() + DAY_MS).toISOString())
    const preview = await test.office.get<{ rosterNumber?: string }>(`/api/soldiers/${setting.candidateId}`)
    await test.office.post(
      `/api/soldiers/${setting.candidateId}/removal`,
      { confirmation: preview.rosterNumber, reason: 'Asked for' },
      200,
    )
    await test.office.refused(409, 'GET', `/api/soldiers/${setting.candidateId}/as-known?on=2026-03-01`)
  })
})
