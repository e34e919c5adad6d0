import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

let test: TestApp
let second: Client
let grader: Client
let setting: TestSetting
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-03-20T10:00:00Z' })
  second = await test.signedIn({ name: 'second', roles: ['office'] })
})
beforeEach(async () => {
  await test.sql('DELETE FROM notice')
  setting = await makeTestSetting(test.office)
  const { graderId } = setting
  grader = await test.signedIn({ name: `grader ${graderId}`, roles: ['grader'], soldierId: graderId })
})
afterAll(() => test?.close())

async function overOf(client: Client, kind: Notice['kind']): Promise<boolean[]> {
  const { items } = await client.get<{ items: Notice[] }>('/api/notices?limit=500')
  return items.filter((notice) => notice.kind === kind).map(({ over }) => over)
}
const unread = async () => (await grader.get<{ unread: number }>('/api/notices/unread')).unread
/** As if all notices had come so many days earlier. */
const age = (days: number) => test.sql(`UPDATE notice SET at = at - interval '${days} days'`)

describe('a notice is over', () => {
  it('that a sheet was entered, when the sheet says something else by now, or after two weeks', async () => {
    const [changed, kept] = [randomUUID(), randomUUID()]
    await putSheet(test.office, setting.sheet(times('2026-03-02')), changed)
    await putSheet(test.office, setting.sheet(times('2026-03-03')), kept)
    expect(await overOf(grader, 'sheet entered')).toEqual([false, false])
    await amend(test.office, second, changed, setting.sheet({ ...times('2026-03-02'), notes: 'Wind from the left' }))
    expect((await overOf(grader, 'sheet entered')).sort()).toEqual([false, true])
    await age(13)
    expect(await unread()).toBeGreaterThan(0)
    await age(2)
    expect(await overOf(grader, 'sheet entered')).toEqual([true, true])
    expect(await unread()).toBe(0)
  })

  it('that a sheet arrived late, when the sheet is rejected, or after two weeks', async () => {
    const sponsorless = { ...setting.sheet(times('2026-03-02')), sponsorId: null }
    await putSheet(test.office, setting.sheet(times('2026-03-10')))
    test.clock.now = new Date(test.clock.now.getTime() + 60_000)
    const { id } = await putSheet(test.office, sponsorless)
    await putSheet(test.office, setting.sheet(times('2026-03-03')))
    expect(await overOf(test.office, 'sheet arrived late')).toEqual([false, false])
    await second.post(`/api/sheets/${id}/decision`, { decision: 'reject', reason: 'Nobody vouches for it' }, 200)
    expect((await overOf(test.office, 'sheet arrived late')).sort()).toEqual([false, true])
    await age(15)
    expect(await overOf(test.office, 'sheet arrived late')).toEqual([true, true])
  })

  it('that only tells something, after two weeks', async () => {
    const { id } = await putSheet(test.office, setting.sheet(times('2026-03-02')))
    const kinds = ['sheets taken in', 'sheet amended', 'amendment refused', 'appeal upheld', 'appeal denied'] as const
    await test.sql(
      `INSERT INTO notice (at, kind, to_id, to_leaders, about_id, sheet_id)
       SELECT $1, kind, $2, false, $3, $4 FROM unnest($5::text[]) AS kind`,
      [test.clock.now, setting.graderId, setting.candidateId, id, kinds],
    )
    for (const [days, over] of [
      [13, false],
      [2, true],
    ] as const) {
      await age(days)
      for (const kind of kinds) expect([kind, await overOf(grader, kind)]).toEqual([kind, [over]])
    }
  })
})
