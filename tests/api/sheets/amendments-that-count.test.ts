import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import type { AmendmentProposal } from '../../../server/contract/sheets/amendments.ts'
import type { SheetDetail } from '../../../server/contract/sheets/sheets.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import {
  carryOver,
  makeSoldier,
  makeTestSetting,
  makeUnit,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
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

const amend = (id: string, sheet: SheetInput, client = office) =>
  client.tries('POST', `/api/sheets/${id}/amendments`, { reason: 'Misread', sheet })
const read = (id: string) => office.get<SheetDetail>(`/api/sheets/${id}`)
const confirm = { decision: 'confirm', reason: 'Compared with the paper' }

describe('one person of the office cannot change what counts', () => {
  const wayOut = { conditions: { uniform: false, equipment: true, sponsorPresent: true } }
  it.each<[string, (setting: TestSetting) => Promise<Partial<SheetInput>> | Partial<SheetInput>]>([
    ['uniform not right, so that it is held', () => wayOut],
    ['a grader who is not appointed', async ({ unitId }) => ({ graderId: await makeSoldier(office, unitId) })],
    ['an arm the candidate does not carry', () => ({ arm: 'saber' })],
    ['no sponsor', () => ({ sponsorId: null })],
    ['another arm that is right as well', () => ({ arm: 'rifle' })],
    ['another day', () => times('2026-03-05')],
    ['practice', () => ({ purpose: 'practice' })],
    ['a second grader’s', () => ({ secondOf: randomUUID() })],
  ])('by making a NO-GO one with %s', async (_what, change) => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet(NO_GO_MARKS))
    const statuses = () => readStatuses(office, setting.candidateId, '2026-06-15')
    const before = { sheet: await read(id), statuses: await statuses() }
    const { status, body } = await amend(id, setting.sheet({ ...NO_GO_MARKS, ...(await change(setting)) }))
    expect(status).toBe(202)
    expect({ sheet: await read(id), statuses: await statuses() }).toEqual(before)
    const path = `/api/amendments/${(body as { id: string }).id}/decision`
    expect((await office.refused(403, 'POST', path, confirm)).type).toBe('urn:reviewstand:problem:second-person')
    await second.post(path, confirm, 200)
    expect((await read(id)).revisions).toHaveLength(2)
    await office.tries('POST', `/api/sheets/${id}/decision`, { decision: 'reject', reason: 'Not a test' })
    expect((await read(id)).state).not.toBe('rejected')
  })

  it('by moving a NO-GO before a GO of the same day', async () => {
    const setting = await makeTestSetting(office)
    await putSheet(office, setting.sheet(times('2026-03-02', 9)))
    const { id } = await putSheet(office, setting.sheet({ ...NO_GO_MARKS, ...times('2026-03-02', 14) }))
    expect((await amend(id, setting.sheet({ ...NO_GO_MARKS, ...times('2026-03-02', 7) }))).status).toBe(202)
    expect((await amend(id, setting.sheet({ ...NO_GO_MARKS, ...times('2026-03-02', 15) }))).status).toBe(200)
  })

  it('of others, whose sheets hang on it', async () => {
    const setting = await makeTestSetting(office)
    const graderId = setting.candidateId
    const { id } = await putSheet(office, setting.sheet())
    const other = await makeTestSetting(office, setting)
    const graded = await putSheet(office, other.sheet({ graderId, ...times('2026-03-20') }))
    expect(graded.state).toBe('counted')
    const gone = await amend(id, setting.sheet({ ...times('2026-03-02'), ...NO_GO_MARKS }))
    expect(gone.status).toBe(202)
    expect(await read(graded.id)).toMatchObject({ state: 'counted', flags: [] })
  })

  it('but mend at once what changes nothing that counts', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet())
    for (const change of [{ notes: 'Rain.' }, times('2026-03-02', 11), { acknowledged: [] }]) {
      expect((await amend(id, setting.sheet(change))).status).toBe(200)
    }
  })
})

describe('who decides', () => {
  it('is a commander of the unit, too, but of no other', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet(NO_GO_MARKS))
    const proposal = ((await amend(id, setting.sheet())).body as { id: string }).id
    const path = `/api/amendments/${proposal}/decision`
    const elsewhere = await makeUnit(office)
    const make = (name: string, unitId: string, role = 'commander') =>
      test.signedIn({ name: `${name} ${id}`, roles: [role], unitId })
    const [own, foreign] = [await make('own', setting.unitId), await make('foreign', elsewhere)]
    const waiting = async (client: Client) =>
      (await client.get<{ items: AmendmentProposal[] }>('/api/amendments')).items.map((one) => one.id)
    expect(await waiting(own)).toEqual([proposal])
    expect(await waiting(foreign)).toEqual([])
    await foreign.refused(404, 'POST', path, confirm)
    await (await make('leader', setting.unitId, 'leader')).refused(403, 'POST', path, confirm)
    expect(await own.post(path, confirm, 200)).toMatchObject({ state: 'counted', result: { outcome: 'GO' } })
  })

  it('about a held sheet is nobody who entered or amended it', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet({ sponsorId: null }))
    await amend(id, setting.sheet({ sponsorId: null, notes: 'Rain.' }), second)
    const count = { decision: 'count', reason: 'Seen' }
    for (const writer of [office, second]) {
      const problem = await writer.refused(403, 'POST', `/api/sheets/${id}/decision`, count)
      expect(problem.type).toBe('urn:reviewstand:problem:second-person')
    }
    const commander = await test.signedIn({ name: `stands in ${id}`, roles: ['commander'], unitId: setting.unitId })
    expect(await commander.post(`/api/sheets/${id}/decision`, count, 200)).toMatchObject({ state: 'counted' })
  })
})

describe('grader and candidate are told', () => {
  it('of entry, amendment and rejection in their name', async () => {
    const setting = await makeTestSetting(office)
    const { graderId, candidateId } = setting
    const clients = [
      await test.signedIn({ name: `g ${graderId}`, roles: ['soldier'], soldierId: graderId }),
      await test.signedIn({ name: `c ${candidateId}`, roles: ['soldier'], soldierId: candidateId }),
    ]
    const { id } = await putSheet(office, setting.sheet())
    await amend(id, setting.sheet({ notes: 'Rain.' }))
    const proposed = await amend(id, setting.sheet({ sponsorId: null }))
    await second.post(`/api/amendments/${(proposed.body as { id: string }).id}/decision`, confirm, 200)
    const third = await test.signedIn({ name: `third ${id}` })
    await third.post(`/api/sheets/${id}/decision`, { decision: 'reject', reason: 'Not a test' }, 200)
    for (const client of clients) {
      const { items } = await client.get<{ items: Notice[] }>('/api/notices')
      expect(items.map(({ kind }) => kind).sort()).toEqual(
        ['amendment proposed', 'sheet amended', 'sheet entered', 'sheet held', 'sheet rejected'].sort(),
      )
    }
  })
})

describe('a flag', () => {
  it('survives an amendment that touches nothing its rule looks at, and no other', async () => {
    const setting = await makeTestSetting(office)
    const first = setting.sheet()
    const { id } = await putSheet(office, first)
    await carryOver(office, setting.graderId, setting.certification, {
      awardedOn: '2026-01-10',
      validThrough: '2026-02-01',
    })
    expect(await read(id)).toMatchObject({ state: 'counted', flags: ['grader-not-qualified'] })
    expect(await amend(id, { ...first, notes: 'Rain.' })).toMatchObject({ status: 200, body: { state: 'counted' } })
    expect(await read(id)).toMatchObject({ state: 'counted', flags: ['grader-not-qualified'] })
    const moved = await amend(id, { ...first, ...times('2026-03-03') })
    await second.post(`/api/amendments/${(moved.body as { id: string }).id}/decision`, confirm, 200)
    expect(await read(id)).toMatchObject({ state: 'held' })
  })
})

describe('what a sheet would come to', () => {
  it('is told of people out of scope as the score alone, and as if they were not there', async () => {
    const setting = await makeTestSetting(office)
    await putSheet(office, setting.sheet(NO_GO_MARKS))
    const grader = await test.signedIn({
      name: `score ${setting.graderId}`,
      roles: ['grader'],
      soldierId: setting.graderId,
    })
    const score = (change: Partial<SheetInput>) =>
      grader.post<{ result: { outcome: string; attempts: object[] } }>('/api/sheets/score', setting.sheet(change), 200)
    const known = await score(times('2026-03-03'))
    expect(known).toMatchObject({ result: { outcome: 'GO', attempts: [] }, violations: [] })
    expect(await score({ ...times('2026-03-03'), candidateId: randomUUID(), sponsorId: randomUUID() })).toEqual(known)
    const { body } = await office.tries('POST', '/api/sheets/score', setting.sheet(times('2026-03-03')))
    expect(body).toMatchObject({ result: { attempts: [{ number: 2 }] }, violations: [{ rule: 'too-early' }] })
  })
})
