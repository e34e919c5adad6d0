import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import type { CommandersWords, WaitingAward } from '../../../server/contract/readiness/commanders-words.ts'
import type { ReadinessPoint } from '../../../server/contract/readiness/readiness.ts'
import type { ReadinessForecast } from '../../../server/contract/readiness-forecast/readiness-forecast.ts'
import type { Certificate } from '../../../server/contract/soldiers/extracts.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import {
  carryOver,
  makeCertification,
  makeSoldier,
  makeTestSetting,
  makeUnit,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { outcomeOnly, times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
let commander: Client
/** Signed from the day of signing. */
let signed: string
/** Signed, then from the last test. */
let backdated: string
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  const { unitId, standard } = setting
  const terms = { standards: [standard], extensionDays: 40 }
  signed = await makeCertification(test.office, { ...terms, approval: 'required' })
  backdated = await makeCertification(test.office, { ...terms, approval: 'required-from-award' })
  commander = await test.signedIn({ name: 'commander', roles: ['commander'], unitId })
})
afterAll(() => test.close())

/** Somebody who passed on a day, and the sheet. */
async function passed(on = '2026-06-01') {
  const id = await makeSoldier(test.office, setting.unitId)
  const sheet = setting.sheet({ candidateId: id, ...times(on), ...outcomeOnly('GO') })
  return { id, sheetId: (await putSheet(test.office, sheet)).id }
}

const statusOf = async (id: string, certification: string, asOf = '2026-06-15') =>
  (await readStatuses(test.office, id, asOf)).find((one) => one.certification === certification)!

const decide = (decision: 'approve' | 'refuse', certification: string, sheetId: string, more: object = {}) =>
  commander.tries('POST', '/api/approvals', {
    decision,
    items: [{ certification, sheetId }],
    ...more,
  })

const waiting = async (client = commander) => (await client.get<{ items: WaitingAward[] }>('/api/approvals')).items

describe('an approval', () => {
  it('lets somebody stand from its day on, or from the test, as the terms say', async () => {
    const { id, sheetId } = await passed()
    expect(await statusOf(id, signed)).toMatchObject({ status: 'awaiting approval', awardedOn: null })
    expect(await statusOf(id, setting.certification)).toMatchObject({ status: 'certified' })
    expect((await waiting()).filter(({ soldierId }) => soldierId === id)).toMatchObject([
      { certification: signed, awardedOn: '2026-06-01', inForceFrom: '2026-06-15', certifiedThrough: null },
      { certification: backdated, awardedOn: '2026-06-01', inForceFrom: '2026-06-01' },
    ])
    const items = [signed, backdated].map((certification) => ({ certification, sheetId }))
    await commander.post('/api/approvals', { decision: 'approve', on: '2026-06-10', items })
    expect(await statusOf(id, signed, '2026-06-09')).toMatchObject({ status: 'awaiting approval' })
    expect(await statusOf(id, signed, '2026-06-10')).toMatchObject({ status: 'certified', awardedOn: '2026-06-01' })
    expect(await statusOf(id, backdated, '2026-06-01')).toMatchObject({ status: 'certified' })
    expect((await waiting()).filter(({ soldierId }) => soldierId === id)).toEqual([])
  })

  it('takes a day that is neither to come nor before the test, and what still waits', async () => {
    const { sheetId } = await passed()
    expect(await decide('approve', signed, sheetId, { on: '2026-06-16' })).toMatchObject({ status: 422 })
    expect(await decide('approve', signed, sheetId, { on: '2026-05-31' })).toMatchObject({ status: 422 })
    expect(await decide('refuse', signed, sheetId)).toMatchObject({ status: 422 })
    expect(await decide('approve', setting.certification, sheetId)).toMatchObject({ status: 409 })
    expect(await decide('approve', signed, sheetId)).toMatchObject({ status: 201 })
    expect(await decide('approve', signed, sheetId)).toMatchObject({ status: 409 })
  })

  it('names each award once, whatever the case of its id', async () => {
    const { id, sheetId } = await passed()
    for (const again of [sheetId, sheetId.toUpperCase()]) {
      const items = [sheetId, again].map((one) => ({ certification: signed, sheetId: one }))
      expect(await commander.tries('POST', '/api/approvals', { decision: 'approve', items })).toMatchObject({
        status: 422,
      })
    }
    expect(await statusOf(id, signed)).toMatchObject({ status: 'awaiting approval' })
  })

  it('is made once where two sign at the same time', async () => {
    const { id, sheetId } = await passed()
    const other = await test.signedIn({ name: 'second commander', roles: ['commander'], unitId: setting.unitId })
    const body = (decision: string) => ({ decision, reason: 'As seen', items: [{ certification: signed, sheetId }] })
    const answers = await Promise.all([
      commander.tries('POST', '/api/approvals', body('approve')),
      other.tries('POST', '/api/approvals', body('refuse')),
      commander.tries('POST', '/api/approvals', body('approve')),
    ])
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409])
    const { decisions } = await test.office.get<CommandersWords>(`/api/soldiers/${id}/commanders-words`)
    expect(decisions).toHaveLength(1)
  })

  it('is nobody’s above another unit, nor the office’s', async () => {
    const { sheetId } = await passed()
    const unitId = await makeUnit(test.office)
    const other = await test.signedIn({ name: 'other commander', roles: ['commander'], unitId })
    const body = { decision: 'approve', items: [{ certification: signed, sheetId }] }
    expect(await other.tries('POST', '/api/approvals', body)).toMatchObject({ status: 404 })
    expect(await waiting(other)).toEqual([])
    expect(await test.office.tries('POST', '/api/approvals', body)).toMatchObject({ status: 403 })
  })

  it('is taken back: it waits again', async () => {
    const { id, sheetId } = await passed()
    const { body } = await decide('approve', signed, sheetId)
    const [{ id: decision }] = (body as { items: [{ id: string }] }).items
    await commander.post(`/api/approvals/${decision}/take-back`, { reason: 'Wrong soldier' }, 200)
    expect(await statusOf(id, signed)).toMatchObject({ status: 'awaiting approval' })
    const again = await commander.tries('POST', `/api/approvals/${decision}/take-back`, { reason: 'Again' })
    expect(again.status).toBe(409)
    const words = await test.office.get<CommandersWords>(`/api/soldiers/${id}/commanders-words`)
    expect(words.decisions).toMatchObject([
      { decision: 'approve', by: 'commander', takenBack: { on: '2026-06-15', reason: 'Wrong soldier' } },
    ])
    expect(await decide('approve', signed, sheetId)).toMatchObject({ status: 201 })
  })
})

describe('a refusal', () => {
  it('leaves the GO, and the next one makes an award that waits', async () => {
    const { id, sheetId } = await passed('2026-06-01')
    await decide('refuse', signed, sheetId, { reason: 'Not yet' })
    expect(await statusOf(id, signed)).toMatchObject({ status: 'part way', toward: [{ on: '2026-06-01' }] })
    const again = setting.sheet({ candidateId: id, ...times('2026-06-12'), ...outcomeOnly('GO') })
    await putSheet(test.office, again)
    expect(await statusOf(id, signed)).toMatchObject({ status: 'awaiting approval', toward: [] })
  })
})

describe('an extension', () => {
  const extend = (soldierId: string, certification: string, days: number, on?: string) =>
    commander.tries('POST', '/api/extensions', {
      soldierId,
      certification,
      days,
      kind: 'deployment',
      reason: 'Away',
      ...(on && { on }),
    })

  it('moves the last day within what the terms allow, until it is taken back', async () => {
    const { id, sheetId } = await passed()
    await decide('approve', signed, sheetId)
    const answer = await extend(id, signed, 30)
    expect(answer.status).toBe(201)
    expect(await statusOf(id, signed)).toMatchObject({ validThrough: '2027-07-01' })
    expect(await extend(id, signed, 11)).toMatchObject({ status: 422 })
    expect(await extend(id, signed, 10)).toMatchObject({ status: 201 })
    expect(await statusOf(id, signed, '2027-07-11')).toMatchObject({ status: 'certified', validThrough: '2027-07-11' })
    const extension = (answer.body as { id: string }).id
    await commander.post(`/api/extensions/${extension}/take-back`, { reason: 'Back early' }, 200)
    expect(await statusOf(id, signed)).toMatchObject({ validThrough: '2027-06-11' })
  })

  it('stays within the terms where several are given at the same time', async () => {
    const { id, sheetId } = await passed()
    await decide('approve', signed, sheetId)
    const answers = await Promise.all([30, 30, 30, 30].map((days) => extend(id, signed, days)))
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 422, 422, 422])
    expect(await statusOf(id, signed)).toMatchObject({ validThrough: '2027-07-01' })
  })

  it('is of a carried-over award too, whose holder then sponsors until its end', async () => {
    const sponsorId = await makeSoldier(test.office, setting.unitId)
    await carryOver(test.office, sponsorId, signed, { awardedOn: '2025-05-01', validThrough: '2026-05-20' })
    const candidateId = await makeSoldier(test.office, setting.unitId)
    await test.office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId, from: '2026-01-01' })
    const sheet = setting.sheet({ candidateId, sponsorId, ...times('2026-06-01') })
    const stored = await putSheet(test.office, sheet)
    expect(stored).toMatchObject({ state: 'held', violations: [{ rule: 'sponsor-not-certified' }] })
    expect(await extend(sponsorId, signed, 20, '2026-05-21')).toMatchObject({ status: 409 })
    expect(await extend(sponsorId, signed, 20, '2026-05-20')).toMatchObject({ status: 201 })
    const after = await test.office.get<{ state: string }>(`/api/sheets/${stored.id}`)
    expect(after.state).toBe('counted')
    expect(await statusOf(sponsorId, signed, '2026-06-09')).toMatchObject({ status: 'certified' })
    expect(await statusOf(sponsorId, signed, '2026-06-10')).toMatchObject({ status: 'lapsed' })
  })

  it('is none where the terms allow none', async () => {
    const { id } = await passed()
    expect(await extend(id, setting.certification, 1)).toMatchObject({ status: 422 })
  })
})

describe('a signature and an extension, wherever a certification counts', () => {
  it('count until their last day, and no longer once they are taken back', async () => {
    const { office } = test
    const unitId = await makeUnit(office, { kind: 'platoon', parentId: setting.unitId, timeZone: null })
    const code = await makeCertification(office, {
      standards: [setting.standard],
      validityMonths: 1,
      approval: 'required',
      extensionDays: 40,
    })
    const soldierId = await makeSoldier(office, unitId)
    const sheet = setting.sheet({ candidateId: soldierId, ...times('2026-06-01'), ...outcomeOnly('GO') })
    const { id: sheetId } = await putSheet(office, sheet)
    const ceremony = await office.post('/api/ceremonies', {
      title: 'Evening parade',
      unitId,
      startsAt: '2026-07-20T10:00:00Z',
      endsAt: '2026-07-20T11:00:00Z',
      posts: [{ title: 'Guide', row: 1, place: 1, certification: code, soldierId: null }],
    })
    const [post] = (await office.get<CeremonyDetail>(`/api/ceremonies/${ceremony.id}`)).formation
    const asked = `unitId=${unitId}&certification=${code}`

    /** On 15 June as a course has it; in July as forecast, for a post, and on paper. */
    const seen = async () => {
      const trend = await office.get<{ items: ReadinessPoint[] }>(
        `/api/readiness/trend?${asked}&from=2026-06-15&to=2026-06-15`,
      )
      const on = async (day: string) =>
        (await office.get<ReadinessForecast>(`/api/readiness/forecast?${asked}&on=${day}`)).expected
      const candidates = await office.get<{ items: unknown[] }>(
        `/api/ceremonies/${ceremony.id}/posts/${post!.id}/candidates`,
      )
      const paper = await office.tries('GET', `/api/soldiers/${soldierId}/certificate?certification=${code}`)
      return {
        certified: trend.items.map(({ required, certified }) => [required, certified]),
        forecast: [await on('2026-07-01'), await on('2026-07-20')],
        mayStandOn20July: candidates.items.length,
        paper: paper.status === 200 ? (paper.body as Certificate).validThrough : null,
      }
    }

    const nothing = { certified: [[1, 0]], forecast: [0, 0], mayStandOn20July: 0, paper: null }
    // What waits is expected to be signed by then.
    const waits = { ...nothing, forecast: [1, 0] }
    const untilJuly = { certified: [[1, 1]], forecast: [1, 0], mayStandOn20July: 0, paper: '2026-07-01' }
    const extended = { certified: [[1, 1]], forecast: [1, 1], mayStandOn20July: 1, paper: '2026-07-31' }
    expect(await seen()).toEqual(waits)
    const {
      items: [word],
    } = await commander.post<{ items: { id: string }[] }>('/api/approvals', {
      decision: 'approve',
      items: [{ certification: code, sheetId }],
    })
    expect(await seen()).toEqual(untilJuly)
    const extension = await commander.post('/api/extensions', {
      soldierId,
      certification: code,
      days: 30,
      kind: 'deployment',
      reason: 'Away',
    })
    expect(await seen()).toEqual(extended)
    await commander.post(`/api/extensions/${extension.id}/take-back`, { reason: 'Stays' }, 200)
    expect(await seen()).toEqual(untilJuly)
    await commander.post(`/api/approvals/${word!.id}/take-back`, { reason: 'Wrong soldier' }, 200)
    expect(await seen()).toEqual(waits)
    const refusal = { decision: 'refuse', reason: 'Not yet', items: [{ certification: code, sheetId }] }
    await commander.post('/api/approvals', refusal)
    expect(await seen()).toEqual(nothing)
  })
})
