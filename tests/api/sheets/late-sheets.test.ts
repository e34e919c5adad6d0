import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import type { SheetDetail } from '../../../server/contract/sheets/sheets.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { type Ground, makeGround, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { NO_GO_MARKS, type SheetInput, times } from '../../support/sheet-body.ts'

const MINUTE_MS = 60_000

let test: TestApp
let second: Client
let ground: Ground
let setting: TestSetting

beforeAll(async () => {
  test = await buildTestApp({ now: '2026-03-20T10:00:00Z' })
  ground = await makeGround(test.office)
  second = await test.signedIn({ name: 'second', roles: ['office'] })
})
beforeEach(async () => {
  setting = await makeTestSetting(test.office, ground)
})
afterAll(() => test?.close())

/** Stores a sheet a minute after the one before. */
const arrives = (sheet: SheetInput, id = randomUUID()) => {
  test.clock.now = new Date(test.clock.now.getTime() + MINUTE_MS)
  return putSheet(test.office, sheet, id)
}
const read = (id: string) => test.office.get<SheetDetail>(`/api/sheets/${id}`)
const isLate = async (id: string) => (await read(id)).arrivedLate
const toOffice = async () => {
  const { items } = await test.office.get<{ items: Notice[] }>('/api/notices?limit=500')
  return items.filter(({ kind, aboutId }) => kind === 'sheet arrived late' && aboutId === setting.candidateId)
}

describe('a sheet that arrives after a later one of the same soldier', () => {
  it('says so, flags nothing, and the office is told once', async () => {
    const later = await arrives(setting.sheet(times('2026-03-10')))
    expect(later.arrivedLate).toBe(false)
    expect(await toOffice()).toEqual([])
    const body = setting.sheet({ ...times('2026-03-02'), ...NO_GO_MARKS })
    const late = await arrives(body)
    expect(late).toMatchObject({ arrivedLate: true })
    expect(await read(late.id)).toMatchObject({ arrivedLate: true, flags: [] })
    expect(await isLate(later.id)).toBe(false)
    expect(await test.office.put(`/api/sheets/${late.id}`, body, 200)).toMatchObject({ arrivedLate: true })
    expect(await toOffice()).toMatchObject([{ sheetId: late.id, toOffice: true, day: '2026-03-02' }])
  })

  it('is not late for somebody else’s, for practice, or for a sheet that was rejected', async () => {
    const other = await makeTestSetting(test.office, ground)
    await arrives(other.sheet(times('2026-03-11')))
    await arrives(setting.sheet({ ...times('2026-03-10'), purpose: 'practice' }))
    expect(await arrives(setting.sheet(times('2026-03-02')))).toMatchObject({ arrivedLate: false })
    const held = await arrives(setting.sheet({ ...times('2026-03-12'), graderId: setting.candidateId }))
    expect(held.state).toBe('held')
    const late = await arrives(setting.sheet(times('2026-03-04')))
    expect(late.arrivedLate).toBe(true)
    const reject = { decision: 'reject', reason: 'Graded by the candidate' }
    await second.post(`/api/sheets/${held.id}/decision`, reject, 200)
    expect(await isLate(late.id)).toBe(false)
  })

  it('is not late for the other grader’s sheet of the same attempt, whichever comes first', async () => {
    const [first, other] = [randomUUID(), randomUUID()]
    await arrives(setting.sheet({ ...times('2026-03-02'), finishedAt: '2026-03-02T09:51:00Z' }), first)
    const twice = setting.sheet({ finishedAt: '2026-03-02T09:50:00Z', graderId: setting.sponsorId, secondOf: first })
    expect(await arrives(twice, other)).toMatchObject({ arrivedLate: false })
    expect(await isLate(first)).toBe(false)
  })

  it('is told by the ends in force: an amendment can put it after the other', async () => {
    await arrives(setting.sheet(times('2026-03-10')))
    const late = await arrives(setting.sheet(times('2026-03-02')))
    expect(late.arrivedLate).toBe(true)
    await second.post('/api/account/confirmation', { password: PASSWORD }, 200) // The clock went on since they signed in.
    await amend(test.office, second, late.id, setting.sheet(times('2026-03-12')))
    expect(await isLate(late.id)).toBe(false)
  })

  it('is told across two entries of one soldier, and no longer when they are taken apart', async () => {
    const twin = await makeTestSetting(test.office, ground)
    await arrives(setting.sheet(times('2026-03-10')))
    const early = await arrives(twin.sheet(times('2026-03-02')))
    expect(early.arrivedLate).toBe(false)
    const merge = { awayId: twin.candidateId, reason: 'One soldier' }
    const { id } = await test.office.post(`/api/soldiers/${setting.candidateId}/merges`, merge)
    expect(await isLate(early.id)).toBe(true)
    await test.office.post(`/api/merges/${id}/undo`, { reason: 'Two after all' }, 200)
    expect(await isLate(early.id)).toBe(false)
  })
})
