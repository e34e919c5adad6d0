import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { carryOver, makeSoldier, makeTestSetting, type TestSetting } from '../../support/factories.ts'
import { GO_MARKS, NO_GO_MARKS, type SheetInput, STOPPED_MARKS } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
})
afterAll(() => test.close())

const revisionsOf = async (id: string) =>
  (await test.sql<{ count: number }>('SELECT count(*)::int AS count FROM sheet_revision WHERE sheet_id = $1', [id]))[0]!
    .count

describe('the same id again', () => {
  it('with the same body is 200, answers how the sheet stands and changes nothing', async () => {
    const path = `/api/sheets/${randomUUID()}`
    const sheet = setting.sheet({ notes: 'once' })
    const stored = await test.office.put<StoredSheet>(path, sheet)
    const before = await countRows(test)
    expect(await test.office.put(path, sheet, 200)).toEqual(stored)
    expect(await countRows(test)).toEqual(before)
  })

  it('is compared as parsed: order of fields, what has a default, and the case of ids do not matter', async () => {
    const path = `/api/sheets/${randomUUID()}`
    const sheet = setting.sheet(STOPPED_MARKS)
    await test.office.put(path, sheet)
    const spelledOut = {
      notes: '',
      acknowledged: [],
      pauses: [],
      outcomeOnly: null,
      void: null,
      secondOf: null,
      testDayId: null,
      conditions: { sponsorPresent: true, equipment: true, uniform: true },
      purpose: 'test',
      ...Object.fromEntries(Object.entries(sheet).reverse()),
      graderId: sheet.graderId.toUpperCase(),
      majors: sheet.majors!.map((major) => ({ note: null, ...major })),
    }
    await test.office.put(path, spelledOut, 200)
    await test.office.put(path, JSON.parse(JSON.stringify(spelledOut, null, 4)), 200)
  })

  it('with numbers written in another way is the same body', async () => {
    const path = `/api/sheets/${randomUUID()}`
    const text = JSON.stringify(
      setting.sheet({ majors: [{ code: 'composure', mark: 'NO-GO', atCall: 0 }], minors: [] }),
    )
    expect((await test.office.tries('PUT', path, text.replace('"atCall":0', '"atCall":-0'))).status).toBe(201)
    for (const zero of ['0', '-0', '0.0', '0e5']) {
      const answer = await test.office.tries('PUT', path, text.replace('"atCall":0', `"atCall":${zero}`))
      expect(answer.status, zero).toBe(200)
    }
  })

  it('sent by another clock is the same sheet', async () => {
    const path = `/api/sheets/${randomUUID()}`
    const sheet = setting.sheet({ notes: 'retry' })
    const stored = await test.office.put<StoredSheet>(path, sheet)
    const again = await test.office.tries('PUT', path, sheet, { 'x-device-time': '2026-06-16T12:00:00Z' })
    expect(again).toMatchObject({ status: 200, body: stored })
  })

  it('with another body is 409, and the first one stands', async () => {
    const path = `/api/sheets/${randomUUID()}`
    const sheet = setting.sheet({ notes: 'first' })
    const stored = await test.office.put<StoredSheet>(path, sheet)
    const before = await countRows(test)
    const others: object[] = [
      { ...sheet, notes: 'second' },
      { ...sheet, ...NO_GO_MARKS },
      { ...sheet, finishedAt: '2026-03-02T10:00:00.000Z' },
      { ...sheet, finishedAt: '2026-03-02T11:00:00+01:00' },
      { ...sheet, candidateId: setting.graderId, graderId: setting.candidateId },
      { ...sheet, candidateId: randomUUID() },
      { ...sheet, standardVersion: 77 },
      { ...sheet, majors: [] },
    ]
    for (const other of others) {
      const problem = await test.office.refused(409, 'PUT', path, other)
      expect(problem.type).toBe('urn:reviewstand:problem:id-used')
    }
    expect(await countRows(test)).toEqual(before)
    expect(await test.office.get(path)).toMatchObject({ notes: 'first', result: stored.result })
  })
})

describe('the same id at the same moment', () => {
  it.each([2, 20])('%i times is one sheet', async (times) => {
    const id = randomUUID()
    const sheet = setting.sheet({ notes: `${times} at once` })
    const answers = await Promise.all(
      Array.from({ length: times }, () => test.office.tries('PUT', `/api/sheets/${id}`, sheet)),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([...Array(times - 1).fill(200), 201])
    expect(new Set(answers.map(({ body }) => JSON.stringify(body))).size).toBe(1)
    expect(await revisionsOf(id)).toBe(1)
  })

  it('with two bodies is one of them, and the other is 409', async () => {
    const bodies: SheetInput[] = [
      setting.sheet({ notes: 'one', ...GO_MARKS }),
      setting.sheet({ notes: 'other', ...NO_GO_MARKS }),
    ]
    for (let round = 0; round < 4; round++) {
      const id = randomUUID()
      const answers = await Promise.all(
        Array.from({ length: 6 }, (_, index) => test.office.tries('PUT', `/api/sheets/${id}`, bodies[index % 2])),
      )
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 201, 409, 409, 409])
      const winner = answers.findIndex(({ status }) => status === 201) % 2
      answers.forEach(({ status }, index) => {
        expect(status === 409).toBe(index % 2 !== winner)
      })
      expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ notes: bodies[winner]!.notes })
      expect(await revisionsOf(id)).toBe(1)
    }
  })

  it('for two candidates, who do not wait for each other, is one of them', async () => {
    const other = await makeTestSetting(test.office, setting)
    for (let round = 0; round < 4; round++) {
      const id = randomUUID()
      const sheets = [setting.sheet({ notes: `${round}` }), other.sheet({ notes: `${round}` })]
      const answers = await Promise.all(sheets.map((sheet) => test.office.tries('PUT', `/api/sheets/${id}`, sheet)))
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
      expect(await revisionsOf(id)).toBe(1)
    }
  })
})

describe('many amendments at once', () => {
  it('are so many revisions, one after the other', async () => {
    const sheet = setting.sheet({ notes: 'to be amended' })
    const { id } = await test.office.put<StoredSheet>(`/api/sheets/${randomUUID()}`, sheet)
    const answers = await Promise.all(
      Array.from({ length: 8 }, (_, index) =>
        test.office.tries('POST', `/api/sheets/${id}/amendments`, {
          reason: 'R',
          sheet: { ...sheet, notes: `${index}` },
        }),
      ),
    )
    expect(answers.map(({ status }) => status)).toEqual(Array(8).fill(200))
    const { revisions } = await test.office.get<{ revisions: { number: number }[] }>(`/api/sheets/${id}`)
    expect(revisions.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
  })
})

describe('the id of a booking', () => {
  it('is taken by no other grader; nothing is lost, for their sheet is stored under an id of its own', async () => {
    const own = await makeTestSetting(test.office)
    const { candidateId, standard, graderId, unitId } = own
    const day = { on: '2026-03-02', unitId }
    test.clock.now = new Date('2026-03-02T10:00:00Z')
    const { id: testDayId } = await test.office.post('/api/test-days', day)
    const { id } = await test.office.post(`/api/test-days/${testDayId}/bookings`, { candidateId, standard, graderId })
    const otherId = await makeSoldier(test.office, unitId)
    await carryOver(test.office, otherId, own.certification)
    const other = await test.signedIn({ name: 'other-grader', roles: ['grader'], soldierId: otherId })
    const booked = await test.signedIn({ name: 'booked-grader', roles: ['grader'], soldierId: graderId })
    const theirs = own.sheet({ graderId: otherId, testDayId, ...NO_GO_MARKS })

    const problem = await other.refused(409, 'PUT', `/api/sheets/${id}`, theirs)
    expect(problem.type).toBe('urn:reviewstand:problem:booking-of-another-grader')
    await test.office.refused(404, 'GET', `/api/sheets/${id}`)
    const elsewhere = await other.put<StoredSheet>(`/api/sheets/${randomUUID()}`, theirs)
    expect(await test.office.get(`/api/sheets/${elsewhere.id}`)).toMatchObject({ graderId: otherId, candidateId })

    await booked.put(`/api/sheets/${id}`, own.sheet({ testDayId }))
    expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ graderId, result: { outcome: 'GO' } })
  })
})
