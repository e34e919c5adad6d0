import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { PossibleDuplicate } from '../../../server/contract/sheets/duplicates.ts'
import type { SheetDetail } from '../../../server/contract/sheets/sheets.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, makeSoldier, makeTestSetting, putSheet } from '../../support/factories.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { secondPerson } from '../../support/second-person.ts'
import { NO_GO_MARKS, type SheetInput, times } from '../../support/sheet-body.ts'

let test: TestApp
let office: Client
let second: Client
beforeAll(async () => {
  test = await buildTestApp()
  office = test.office
  second = await secondPerson(test)
})
afterAll(() => test.close())

const read = (id: string) => office.get<SheetDetail>(`/api/sheets/${id}`)
const pairsOf = async (candidateId: string) =>
  (await office.get<{ items: PossibleDuplicate[] }>('/api/duplicates')).items.filter(
    (pair) => pair.candidateId === candidateId,
  )
const propose = (id: string, sheet: SheetInput) =>
  office.tries('POST', `/api/sheets/${id}/amendments`, { reason: 'The same test twice', sheet })

/** One NO-GO test, sent from one phone, and by another grader a minute later. */
async function twice() {
  const setting = await makeTestSetting(office)
  const graderId = await makeSoldier(office, setting.unitId)
  await carryOver(office, graderId, setting.certification)
  const body = setting.sheet(NO_GO_MARKS)
  const again = setting.sheet({ ...NO_GO_MARKS, graderId, finishedAt: '2026-03-02T10:01:00Z' })
  const [first, later] = [await putSheet(office, body), await putSheet(office, again)]
  return { setting, graderId, body, again, first, later }
}

describe('two sheets of one test', () => {
  it('stand side by side for the office until one is set aside, which then counts nowhere and says for which', async () => {
    const { setting, again, first, later } = await twice()
    const pairs = await pairsOf(setting.candidateId)
    expect(pairs).toMatchObject([{ earlier: { outcome: 'NO-GO' }, later: { outcome: 'NO-GO' }, isProposed: false }])
    expect(pairs.flatMap((pair) => [pair.earlier.sheetId, pair.later.sheetId]).sort()).toEqual(
      [first.id, later.id].sort(),
    )
    const before = await readStatuses(office, setting.candidateId, '2026-03-20')
    const proposed = await propose(later.id, { ...again, duplicateOf: first.id })
    expect(proposed.status).toBe(202)
    expect((await read(later.id)).state).toBe(later.state)
    expect(await pairsOf(setting.candidateId)).toMatchObject([{ isProposed: true }])
    await second.post(
      `/api/amendments/${(proposed.body as { id: string }).id}/decision`,
      { decision: 'confirm', reason: 'Both seen' },
      200,
    )
    expect(await read(later.id)).toMatchObject({ state: 'rejected', duplicateOf: first.id, result: { attempts: [] } })
    expect(await read(first.id)).toMatchObject({ state: 'counted', flags: [] })
    expect(await pairsOf(setting.candidateId)).toEqual([])
    const retests = await office.get<{ items: { soldierId: string; attempt: number }[] }>(
      '/api/retests?asOf=2026-03-20',
    )
    expect(retests.items.filter(({ soldierId }) => soldierId === setting.candidateId)).toMatchObject([{ attempt: 2 }])
    expect(await readStatuses(office, setting.candidateId, '2026-03-20')).toEqual(before)
  })

  it('are as they were once the amendment is taken back, by a second person again', async () => {
    const { again, first, later } = await twice()
    const before = await read(later.id)
    await amend(office, second, later.id, { ...again, duplicateOf: first.id })
    expect((await propose(later.id, again)).status).toBe(202)
    const waiting = await office.get<{ items: { id: string; sheetId: string }[] }>('/api/amendments')
    const proposal = waiting.items.find(({ sheetId }) => sheetId === later.id)!.id
    await second.post(`/api/amendments/${proposal}/decision`, { decision: 'confirm', reason: 'They were two' }, 200)
    const after = await read(later.id)
    expect(after).toMatchObject({ state: before.state, violations: before.violations, flags: before.flags })
    expect(after.duplicateOf).toBeUndefined()
  })

  it('are not decided about by who entered or graded either of them', async () => {
    const { setting, graderId, body, again } = await twice()
    const entered = await putSheet(second, { ...again, ...times('2026-03-02', 12) })
    const stands = await putSheet(office, { ...body, ...times('2026-03-02', 12) })
    const proposed = await propose(stands.id, { ...body, ...times('2026-03-02', 12), duplicateOf: entered.id })
    expect(proposed.status).toBe(202)
    const path = `/api/amendments/${(proposed.body as { id: string }).id}/decision`
    const confirm = { decision: 'confirm', reason: 'Both seen' }
    const graded = await test.signedIn({ name: `graded ${graderId}`, roles: ['office'], soldierId: graderId })
    for (const client of [office, second, graded]) {
      expect((await client.refused(403, 'POST', path, confirm)).type).toBe('urn:reviewstand:problem:second-person')
    }
    const own = await test.signedIn({ name: `own ${stands.id}`, roles: ['commander'], unitId: setting.unitId })
    expect(await own.post(path, confirm, 200)).toMatchObject({ state: 'rejected' })
  })

  it.each<
    [string, string, (world: Awaited<ReturnType<typeof twice>>) => Promise<Partial<SheetInput>> | Partial<SheetInput>]
  >([
    ['itself', 'not-a-duplicate', ({ later }) => ({ duplicateOf: later.id })],
    ['none that is stored', 'not-a-duplicate', () => ({ duplicateOf: randomUUID() })],
    ['one of another candidate', 'not-a-duplicate', async () => ({ duplicateOf: (await twice()).first.id })],
    [
      'one of another day',
      'not-a-duplicate',
      async ({ body }) => ({ duplicateOf: (await putSheet(office, { ...body, ...times('2026-03-20') })).id }),
    ],
    [
      'one while it is a second grader’s',
      'not-a-duplicate',
      ({ first }) => ({ duplicateOf: first.id, secondOf: first.id }),
    ],
    [
      'one that was set aside itself',
      'does-not-stand',
      async ({ body, first, later }) => {
        await amend(office, second, first.id, { ...body, duplicateOf: later.id })
        return { duplicateOf: first.id }
      },
    ],
  ])('one cannot be the duplicate of %s', async (_what, rule, change) => {
    const world = await twice()
    const sheet = { ...world.again, ...(await change(world)) }
    const problem = await office.refused(422, 'POST', `/api/sheets/${world.later.id}/amendments`, {
      reason: 'Twice',
      sheet,
    })
    expect(problem).toMatchObject({
      type: `urn:reviewstand:problem:${rule}`,
      errors: [{ pointer: '/sheet/duplicateOf' }],
    })
  })

  it('come in as any other; no device says that one is a duplicate', async () => {
    const { first, again } = await twice()
    const sheet = { ...again, duplicateOf: first.id }
    expect((await office.refused(422, 'PUT', `/api/sheets/${randomUUID()}`, sheet)).type).toContain(
      'duplicate-by-amendment',
    )
  })

  it('are no pair where one is a second grader’s, practice, void, or after the other', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet())
    await putSheet(office, setting.sheet({ secondOf: id }))
    await putSheet(office, setting.sheet({ purpose: 'practice' }))
    await putSheet(office, setting.sheet({ void: { kind: 'weather' } }))
    await putSheet(office, setting.sheet(times('2026-03-02', 14)))
    expect(await pairsOf(setting.candidateId)).toEqual([])
  })
})
