import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import type { SecondGrading } from '../../../server/contract/sheets/second-gradings.ts'
import type { ScoredSheet } from '../../../server/contract/sheets/sheets.ts'
import type { DayList } from '../../../server/contract/test-days/day-list.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
let first: Client
let second: Client
let secondId: string
let testDayId: string

beforeAll(async () => {
  test = await buildTestApp({ now: '2026-03-02T10:00:00Z' })
  setting = await makeTestSetting(test.office)
  testDayId = (await test.office.post('/api/test-days', { on: '2026-03-02', unitId: setting.unitId })).id
  secondId = await makeSoldier(test.office, setting.unitId)
  const { candidateId, standard, graderId } = setting
  const { id } = await test.office.post(`/api/test-days/${testDayId}/bookings`, { candidateId, standard, graderId })
  await test.office.post(`/api/bookings/${id}/second-grader`, { graderId: secondId }, 200)
  first = await test.signedIn({ name: 'first', roles: ['grader'], soldierId: graderId })
  second = await test.signedIn({ name: 'second', roles: ['grader'], soldierId: secondId })
})
afterAll(() => test?.close())

const toOffice = async () =>
  (await test.office.get<{ items: Notice[] }>('/api/notices')).items.filter(({ kind }) => kind === 'graders differ')
const pairs = (differing = false) =>
  test.office.get<{ items: SecondGrading[] }>(`/api/second-gradings?limit=5&differing=${differing}`)

describe('two who grade one attempt and differ', () => {
  const [firstSheet, secondSheet] = [randomUUID(), randomUUID()]

  it('are blind while only the first sheet is stored: nothing about the candidate tells the second how it went', async () => {
    await putSheet(first, setting.sheet({ testDayId, finishedAt: '2026-03-02T09:50:00Z', ...NO_GO_MARKS }), firstSheet)
    const { candidateId } = setting
    for (const path of ['', '/status', '/coaching', '/coaching-notes', '/absences']) {
      const { status, body } = await second.tries('GET', `/api/soldiers/${candidateId}${path}`)
      expect([403, 404], `${path}: ${status}`).toContain(status)
      expect(JSON.stringify(body)).not.toContain('NO-GO')
    }
    for (const path of [
      '/api/sheets',
      `/api/sheets?soldierId=${candidateId}`,
      '/api/soldiers',
      '/api/retests',
      '/api/readiness',
      '/api/notices',
      `/api/test-days/${testDayId}`,
      `/api/test-days/${testDayId}/line`,
      '/api/day-list',
    ]) {
      const { status, body } = await second.tries('GET', path)
      expect(status, path).toBe(200)
      expect(JSON.stringify(body), path).not.toMatch(/"(NO-GO|GO)"/)
      if (!/line|day-list/.test(path)) expect(JSON.stringify(body), path).not.toContain(candidateId)
    }
    await second.refused(404, 'GET', `/api/sheets/${firstSheet}`)
    await second.refused(403, 'GET', '/api/second-gradings')
  })

  it('what their sheet would come to is its score alone, the same as of a candidate nobody knows', async () => {
    const sheet = setting.sheet({ testDayId, graderId: secondId, secondOf: firstSheet, ...times('2026-03-02') })
    const retest = { ...sheet, ...times('2026-03-03'), secondOf: null }
    for (const body of [sheet, retest, { ...sheet, ...NO_GO_MARKS }]) {
      const asked = await second.post<ScoredSheet>('/api/sheets/score', body, 200)
      expect(asked).toMatchObject({ result: { attempts: [] }, violations: [] })
      const nobodys = { ...body, candidateId: randomUUID(), sponsorId: randomUUID(), secondOf: null, testDayId: null }
      expect(asked).toEqual(await second.post('/api/sheets/score', nobodys, 200))
    }
    // To whom nothing is hidden the same retest is told apart.
    const known = await test.office.post<ScoredSheet>('/api/sheets/score', retest, 200)
    expect(known.violations).not.toEqual([])
  })

  it('the second still has the candidate on the list, with the sheet theirs belongs to', async () => {
    const list = await second.get<DayList>('/api/day-list')
    expect(list.bookings).toMatchObject([{ asSecond: true, firstSheetId: firstSheet }])
    expect(await toOffice()).toEqual([])
    expect((await pairs()).items).toEqual([])
  })

  it('tell the office once the second sheet is in, and then each sees the other’s', async () => {
    const body = setting.sheet({
      testDayId,
      graderId: secondId,
      secondOf: firstSheet,
      finishedAt: '2026-03-02T09:51:00Z',
    })
    await putSheet(second, body, secondSheet)
    await second.put(`/api/sheets/${secondSheet}`, body, 200)
    expect(await toOffice()).toMatchObject([{ sheetId: secondSheet, aboutId: setting.candidateId, toOffice: true }])
    const differing = {
      differs: true,
      first: { sheetId: firstSheet, outcome: 'NO-GO' },
      second: { sheetId: secondSheet, outcome: 'GO', graderId: secondId },
    }
    expect((await pairs(true)).items).toMatchObject([differing])
    await second.get(`/api/sheets/${firstSheet}`)
    await first.get(`/api/sheets/${secondSheet}`)
    await second.get(`/api/soldiers/${setting.candidateId}`)
  })

  it('who agree are listed and nobody is told, whichever sheet comes first', async () => {
    const other = await makeTestSetting(test.office, setting)
    const [one, two] = [randomUUID(), randomUUID()]
    await putSheet(test.office, other.sheet({ graderId: secondId, secondOf: one }), two)
    await putSheet(test.office, other.sheet(), one)
    expect(await toOffice()).toHaveLength(1)
    const page = await pairs()
    expect(page.items.map(({ differs }) => differs).toSorted()).toEqual([false, true])
    expect((await pairs(true)).items).toHaveLength(1)
  })

  it('tell the office as well where the second sheet came before the first', async () => {
    const other = await makeTestSetting(test.office, setting)
    const [one, two] = [randomUUID(), randomUUID()]
    await putSheet(test.office, other.sheet({ graderId: secondId, secondOf: one, ...NO_GO_MARKS }), two)
    expect(await toOffice()).toHaveLength(1)
    await putSheet(test.office, other.sheet(), one)
    expect((await toOffice()).map(({ sheetId }) => sheetId)).toContain(one)
  })
})
