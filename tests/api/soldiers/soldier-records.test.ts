import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SoldierDetail } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { makeSoldier, makeTestSetting, type TestSetting } from '../../support/factories.ts'
import { readStatuses } from '../../support/read-statuses.ts'

let test: TestApp
let setting: TestSetting
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
})
afterAll(() => test.close())

const NOBODY = '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11'
const read = (id: string) => test.office.get<SoldierDetail>(`/api/soldiers/${id}`)
const newSoldier = () => makeSoldier(test.office, setting.unitId)

describe('each record about a soldier', () => {
  it('answers with its id and is read with the soldier', async () => {
    const { sponsorId, standard, certification } = setting
    const id = await newSoldier()
    const post = (kind: string, body: object) => test.office.post(`/api/soldiers/${id}/${kind}`, body)
    const sponsorship = await post('sponsorships', { sponsorId, from: '2026-01-01', to: '2026-03-31' })
    const appointment = await post('appointments', { standard, from: '2026-01-01', to: null })
    const review = await post('reviews', { standard, on: '2026-02-01', note: 'Footwork' })
    const withdrawal = await post('withdrawals', { certification, on: '2026-02-02', reason: 'Knee' })
    const award = { certification, awardedOn: '2025-01-01', validThrough: '2025-12-31', evidence: 'Order 12' }
    const carried = await post('awards', award)
    const body = { soldierId: id, certification, from: '2026-02-03', reason: 'Inquiry' }
    const suspension = await test.office.post('/api/suspensions', body)
    expect(await read(id)).toMatchObject({
      sponsors: [{ id: sponsorship.id, sponsorId, from: '2026-01-01', to: '2026-03-31' }],
      appointments: [{ id: appointment.id, standard, from: '2026-01-01', to: null }],
      reviews: [{ id: review.id, standard, on: '2026-02-01', note: 'Footwork' }],
      withdrawals: [{ id: withdrawal.id, certification, on: '2026-02-02', reason: 'Knee' }],
      awards: [{ id: carried.id, ...award }],
      suspensions: [
        { id: suspension.id, certification, from: '2026-02-03', reason: 'Inquiry', lift: null, liftReason: null },
      ],
    })
    expect((await read(sponsorId)).candidates).toContainEqual(
      expect.objectContaining({ id: sponsorship.id, candidateId: id, from: '2026-01-01', to: '2026-03-31' }),
    )
    const lifted = await test.office.post(
      `/api/suspensions/${suspension.id}/lift`,
      { on: '2026-02-10', reason: 'Closed' },
      200,
    )
    expect(lifted).toEqual(suspension)
    expect((await read(id)).suspensions).toMatchObject([{ lift: '2026-02-10', liftReason: 'Closed' }])
  })

  it('is refused with what it must not be, and nothing is stored', async () => {
    const id = await newSoldier()
    const { sponsorId, standard, certification } = setting
    const suspension = await test.office.post('/api/suspensions', {
      soldierId: id,
      certification,
      from: '2026-03-01',
      reason: 'Inquiry',
    })
    const before = await countRows(test)
    const from = '2026-01-01'
    const award = { certification, awardedOn: from, validThrough: '2026-12-31', evidence: 'E' }
    const withdrawal = { certification, on: from, reason: 'R' }
    const suspending = { soldierId: id, certification, from, reason: 'R' }
    const own = (kind: string) => `/api/soldiers/${id}/${kind}`
    const wrong: [string, object, string][] = [
      [own('sponsorships'), { sponsorId: id, from }, '/sponsorId'],
      [own('sponsorships'), { sponsorId: NOBODY, from }, '/sponsorId'],
      [own('sponsorships'), { sponsorId, from, to: '2025-12-31' }, '/to'],
      [own('sponsorships'), { sponsorId }, '/from'],
      [own('appointments'), { standard: 'nothing', from }, '/standard'],
      [own('appointments'), { standard, from, to: '2025-12-31' }, '/to'],
      [own('reviews'), { standard: 'nothing', on: from }, '/standard'],
      [own('reviews'), { standard, on: '2026-02-29' }, '/on'],
      [own('withdrawals'), { ...withdrawal, certification: 'nothing' }, '/certification'],
      [own('withdrawals'), { ...withdrawal, reason: ' ' }, '/reason'],
      [own('awards'), { ...award, certification: 'nothing' }, '/certification'],
      [own('awards'), { ...award, validThrough: '2025-12-31' }, '/validThrough'],
      [own('awards'), { ...award, evidence: '' }, '/evidence'],
      ['/api/suspensions', { ...suspending, soldierId: NOBODY }, '/soldierId'],
      ['/api/suspensions', { ...suspending, certification: 'nothing' }, '/certification'],
      ['/api/suspensions', { ...suspending, reason: undefined }, '/reason'],
      [`/api/suspensions/${suspension.id}/lift`, { on: '2026-02-28', reason: 'R' }, '/on'],
      [`/api/suspensions/${suspension.id}/lift`, { on: '2026-03-02' }, '/reason'],
    ]
    for (const [path, body, pointer] of wrong) {
      const problem = await test.office.refused(422, 'POST', path, body)
      expect(problem.errors, JSON.stringify(body)).toMatchObject([{ pointer }])
    }
    expect(await countRows(test)).toEqual(before)
  })
})

describe('periods of the same thing', () => {
  it.each(['sponsorships', 'appointments'])('never overlap: %s', async (kind) => {
    const id = await newSoldier()
    const what = kind === 'sponsorships' ? { sponsorId: setting.sponsorId } : { standard: setting.standard }
    const post = (from: string, to: string | null) =>
      test.office.tries('POST', `/api/soldiers/${id}/${kind}`, { ...what, from, to })
    expect((await post('2026-01-01', '2026-01-31')).status).toBe(201)
    expect((await post('2026-01-31', '2026-02-10')).status).toBe(409)
    expect((await post('2025-12-01', null)).status).toBe(409)
    expect((await post('2026-02-01', null)).status).toBe(201)
    expect((await post('2027-01-01', '2027-01-02')).status).toBe(409)
    expect((await post('2025-12-01', '2025-12-31')).status).toBe(201)
    const answers = await Promise.all(Array.from({ length: 5 }, () => post('2025-01-01', '2025-02-01')))
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409, 409])
  })
})

describe('a suspension', () => {
  it('is lifted once', async () => {
    const soldierId = await newSoldier()
    const { certification } = setting
    const { id } = await test.office.post('/api/suspensions', {
      soldierId,
      certification,
      from: '2026-01-01',
      reason: 'R',
    })
    const lift = () => test.office.tries('POST', `/api/suspensions/${id}/lift`, { on: '2026-01-01', reason: 'Closed' })
    const answers = await Promise.all([lift(), lift(), lift()])
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409])
  })

  it('takes away a certification in force from its day until it is lifted, and says so beside any status', async () => {
    const soldierId = await newSoldier()
    const { certification } = setting
    await test.office.post(`/api/soldiers/${soldierId}/awards`, {
      certification,
      awardedOn: '2026-01-01',
      validThrough: '2026-03-31',
      evidence: 'E',
    })
    const { id } = await test.office.post('/api/suspensions', {
      soldierId,
      certification,
      from: '2026-02-01',
      reason: 'R',
    })
    const on = async (day: string) => {
      const { status, suspended } = (await readStatuses(test.office, soldierId, day)).find(
        (one) => one.certification === certification,
      )!
      return [status, suspended]
    }
    expect(await on('2026-01-31')).toEqual(['certified', false])
    expect(await on('2026-02-01')).toEqual(['suspended', true])
    expect(await on('2026-03-31')).toEqual(['suspended', true])
    expect(await on('2026-04-01')).toEqual(['lapsed', true])
    await test.office.post(`/api/suspensions/${id}/lift`, { on: '2026-03-01', reason: 'Closed' }, 200)
    expect(await on('2026-02-28')).toEqual(['suspended', true])
    expect(await on('2026-03-01')).toEqual(['certified', false])
    expect(await on('2026-04-01')).toEqual(['lapsed', false])
  })
})
