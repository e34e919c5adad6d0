import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Certificate, CertificateRecord, SoldierExtract } from '../../../server/contract/soldiers/extracts.ts'
import { setUpApp } from '../../support/authenticator-app.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver, makeTestSetting, putSheet } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

/** What names a soldier and is in no extract, and why. */
const LEFT_OUT: Record<string, string> = {
  running_test: 'lasts as long as a test runs, and is part of no record',
  person_tally: 'counts of sheets that are in the extract themselves',
}

describe('the extract of a soldier', () => {
  let test: TestApp
  let setting: Awaited<ReturnType<typeof makeTestSetting>>
  const sheetId = randomUUID()
  const extractOf = (id: string) => test.office.get<SoldierExtract>(`/api/soldiers/${id}/extract`)

  beforeAll(async () => {
    test = await buildTestApp()
    setting = await makeTestSetting(test.office)
    const { candidateId, certification, standard, unitId } = setting
    await putSheet(test.office, setting.sheet(), sheetId)
    const about = `/api/soldiers/${candidateId}`
    await test.office.post(`${about}/absences`, { from: '2026-05-01', through: '2026-05-03', kind: 'leave' })
    await test.office.post(`${about}/reviews`, { standard, on: '2026-05-04', note: 'Seen with the sponsor' })
    await carryOver(test.office, candidateId, certification)
    await test.office.post('/api/suspensions', {
      soldierId: candidateId,
      certification,
      from: '2026-05-05',
      reason: 'Until the hand is well',
    })
    await test.office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-05-06', grade: 'SSG' }, 200)
    await test.office.post('/api/test-days', { on: '2026-07-01', unitId, place: 'Drill hall' })
    await test.signedIn({ name: 'candidate', roles: ['soldier'], soldierId: candidateId })
  })
  afterAll(() => test.close())

  it('has what was entered, by its kind', async () => {
    const { soldier, lists, madeAt } = await extractOf(setting.candidateId)
    expect(madeAt).toBe('2026-06-15T12:00:00.000Z')
    expect(soldier).toMatchObject({ id: setting.candidateId, familyName: expect.any(String) })
    expect(lists.absences).toEqual([{ from: '2026-05-01', through: '2026-05-03', kind: 'leave' }])
    expect(lists.reviews).toEqual([{ standard: setting.standard, on: '2026-05-04', note: 'Seen with the sponsor' }])
    expect(lists.suspensions).toMatchObject([{ reason: 'Until the hand is well', lifted: null }])
    expect(lists.awardsCarriedOver).toMatchObject([
      { certification: setting.certification, evidence: expect.any(String) },
    ])
    expect(lists.sponsors).toHaveLength(1)
    expect(lists.periods?.at(-1)).toMatchObject({ from: '2026-05-06', through: null, grade: 'SSG' })
    expect(lists.account).toMatchObject([{ name: 'candidate', roles: ['soldier'] }])
    expect(lists.sheets).toMatchObject([
      {
        id: sheetId,
        standard: setting.standard,
        revisions: [{ number: 1, by: 'office', body: { candidateId: setting.candidateId } }],
      },
    ])
    const actions = lists.recordOfChanges?.map(({ action }) => action)
    for (const action of ['soldier.created', 'sheet.submitted', 'soldier.changed', 'absence.added']) {
      expect(actions).toContain(action)
    }
  })

  it('is in the record of changes itself, with who made it', async () => {
    await extractOf(setting.graderId)
    const { lists } = await extractOf(setting.graderId)
    expect(lists.recordOfChanges?.at(-1)).toMatchObject({ action: 'soldier.extract-made', by: 'office' })
  })

  it('says what second factors the account has, and holds no key that lets somebody in', async () => {
    const account = { name: 'sponsor with an app', roles: ['sponsor'], soldierId: setting.sponsorId }
    await setUpApp(test, await test.signedIn(account))
    const { lists } = await extractOf(setting.sponsorId)
    expect(JSON.stringify(lists)).not.toMatch(/argon2|sealed|password_hash/i)
    expect(lists.secondFactors).toMatchObject([{ kind: 'authenticator app', name: null, lastUsedAt: null }])
    expect(JSON.stringify(await extractOf(setting.candidateId))).not.toMatch(/argon2|passwordHash|password_hash|token/i)
  })

  it('leaves out no table that names a soldier', async () => {
    const rows = await test.sql<{ table: string }>(
      `SELECT DISTINCT conrelid::regclass::text AS table FROM pg_constraint
       WHERE contype = 'f' AND confrelid = 'soldier'::regclass ORDER BY 1`,
    )
    const source = fs.readFileSync(path.resolve('server/soldiers/db/extracts/extract-lists.db.ts'), 'utf8')
    expect(rows.length).toBeGreaterThan(15)
    const missing = rows.filter(({ table }) => !new RegExp(`FROM ${table}\\b`).test(source) && !(table in LEFT_OUT))
    expect(missing).toEqual([])
  })
})

describe('a certificate', () => {
  let test: TestApp
  let setting: Awaited<ReturnType<typeof makeTestSetting>>
  beforeAll(async () => {
    test = await buildTestApp()
    setting = await makeTestSetting(test.office)
  })
  afterAll(() => test.close())
  const address = (id = setting.sponsorId) => `/api/soldiers/${id}/certificate?certification=${setting.certification}`

  it('states a certification in force, with a number by which the office finds it', async () => {
    const certificate = await test.office.get<Certificate>(address())
    expect(certificate).toMatchObject({ certification: setting.certification, asOf: '2026-06-15' })
    expect(certificate.awardedOn <= '2026-06-15' && certificate.validThrough >= '2026-06-15').toBe(true)
    expect(await test.office.get(address())).toEqual(certificate)
    const { items } = await test.office.get<{ items: CertificateRecord[] }>(`/api/certificates/${certificate.number}`)
    expect(items).toMatchObject([
      { soldier: { id: setting.sponsorId }, awardedOn: certificate.awardedOn, status: { status: 'certified' } },
    ])
    expect(await test.office.tries('GET', `/api/certificates/${randomUUID()}`)).toMatchObject({ status: 404 })
  })

  it('of an award by test has the number of the sheet that made it', async () => {
    const id = randomUUID()
    await putSheet(test.office, setting.sheet(times('2026-06-10')), id)
    const { number, awardedOn } = await test.office.get<Certificate>(address(setting.candidateId))
    expect({ number, awardedOn }).toEqual({ number: id, awardedOn: '2026-06-10' })
  })

  it('is not made while suspended, nor once it has lapsed; the look-up then tells so', async () => {
    const { number } = await test.office.get<Certificate>(address())
    const body = {
      soldierId: setting.sponsorId,
      certification: setting.certification,
      from: '2026-06-01',
      reason: 'Rest',
    }
    await test.office.post('/api/suspensions', body)
    expect(await test.office.tries('GET', address())).toMatchObject({
      status: 409,
      body: { detail: expect.stringMatching(/suspended/) },
    })
    const { items } = await test.office.get<{ items: CertificateRecord[] }>(`/api/certificates/${number}`)
    expect(items).toMatchObject([{ status: { status: 'suspended' } }])
    test.clock.now = new Date('2031-06-15T12:00:00Z')
    const office = await test.signedIn({ name: 'later', roles: ['office'] })
    expect(await office.tries('GET', address())).toMatchObject({ status: 409 })
  })
})
