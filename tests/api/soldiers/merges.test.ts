import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetDetail } from '../../../server/contract/sheets/sheets.ts'
import type { Merge, MergePreview } from '../../../server/contract/soldiers/merges.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver, makeSoldier, makeTestSetting, makeUnit, putSheet } from '../../support/factories.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { GO_MARKS, NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

const merge = (keptId: string, awayId: string) =>
  test.office.post(`/api/soldiers/${keptId}/merges`, { awayId, reason: 'Entered twice' })
const preview = (keptId: string, awayId: string) =>
  test.office.post<MergePreview>(`/api/soldiers/${keptId}/merges/preview`, { awayId }, 200)
const undo = (id: string) => test.office.post(`/api/merges/${id}/undo`, { reason: 'They are two' }, 200)

describe('a soldier entered twice', () => {
  it('is one after the merge, as the preview says, and two again after undoing it', async () => {
    const setting = await makeTestSetting(test.office)
    const { candidateId: kept, certification, unitId } = setting
    const away = await makeSoldier(test.office, unitId, { from: '2019-06-01', rosterNumber: 'TWICE', grade: 'CPL' })
    await test.office.post(`/api/soldiers/${away}/sponsorships`, { sponsorId: setting.sponsorId, from: '2026-02-01' })
    await putSheet(test.office, setting.sheet({ ...times('2026-03-02'), ...NO_GO_MARKS }))
    const second = await putSheet(test.office, setting.sheet({ ...times('2026-04-02'), candidateId: away }))
    const before = await test.office.get(`/api/soldiers/${away}`)

    const said = await preview(kept, away)
    expect(said).toMatchObject({
      obstacles: [],
      moves: [
        { what: 'notices about the soldier', count: 3 },
        { what: 'notices', count: 1 },
        { what: 'grade sheets as candidate', count: 1 },
      ],
      putAside: [
        { what: 'sponsorships', count: 1 },
        { what: 'entries of unit, grade and arms', count: 1 },
      ],
      sameTimes: [],
    })
    expect(said.periods.map(({ from, grade }) => [from, grade])).toEqual([
      ['2019-06-01', 'CPL'],
      ['2020-01-01', 'SGT'],
    ])
    expect(await test.office.get(`/api/soldiers/${away}`)).toEqual(before)

    const { id } = await merge(kept, away)
    expect(await test.office.get(`/api/soldiers/${away}`)).toMatchObject({ id: kept, joined: '2019-06-01' })
    const moved = await test.office.get<SheetDetail>(`/api/sheets/${second.id}`)
    expect(moved.candidateId).toBe(kept)
    expect(moved.result.attempts).toEqual([{ certification, number: 2 }])
    expect(await readStatuses(test.office, kept, '2026-04-03')).toMatchObject([{ certification, status: 'certified' }])
    const listed = await test.office.get<{ items: Merge[] }>(`/api/merges?soldierId=${kept}`)
    expect(listed.items).toMatchObject([{ id, awayId: away, away: expect.stringContaining('TWICE'), undoneAt: null }])

    await undo(id)
    expect(await test.office.get(`/api/soldiers/${away}`)).toEqual(before)
    expect(await test.office.get(`/api/sheets/${second.id}`)).toMatchObject({
      candidateId: away,
      result: { attempts: [{ certification, number: 1 }] },
    })
    await test.office.refused(404, 'POST', `/api/merges/${id}/undo`, { reason: 'Again' })
    const [left] = (await test.office.get<{ items: Merge[] }>(`/api/merges?soldierId=${kept}`)).items
    expect(left).toMatchObject({ away: null, undoReason: 'They are two' })
  })

  it('takes in a sheet that a device sends under the id given up, and gives it back', async () => {
    const setting = await makeTestSetting(test.office)
    const away = await makeSoldier(test.office, setting.unitId)
    const { id } = await merge(setting.candidateId, away)
    const sheet = setting.sheet({ candidateId: away, ...times('2026-05-02') })
    const late = randomUUID()
    await test.office.put(`/api/sheets/${late}`, sheet)
    await test.office.put(`/api/sheets/${late}`, sheet, 200)
    expect(await test.office.get(`/api/sheets/${late}`)).toMatchObject({ candidateId: setting.candidateId })
    const amended = { reason: 'Misread', sheet: { ...sheet, notes: 'Wind' } }
    await test.office.post(`/api/sheets/${late}/amendments`, amended, 200)
    await undo(id)
    expect(await test.office.get(`/api/sheets/${late}`)).toMatchObject({ candidateId: away, notes: 'Wind' })
  })

  it('is two again although an entry it was given was taken back meanwhile', async () => {
    const unitId = await makeUnit(test.office)
    const [kept, away] = [
      await makeSoldier(test.office, unitId, { from: '2020-01-01' }),
      await makeSoldier(test.office, unitId, { from: '2019-01-01', grade: 'CPL' }),
    ]
    const changes = async (id: string) =>
      (await test.office.get<{ items: { id: number }[] }>(`/api/soldiers/${id}/changes`)).items
    const [before, own] = [await changes(away), await changes(kept)]
    const { id } = await merge(kept, away)
    const given = (await changes(kept)).filter((one) => !own.some((other) => other.id === one.id))
    expect(given).not.toEqual([])
    for (const one of given) {
      await test.office.post(`/api/soldiers/${kept}/changes/${one.id}/remove`, { reason: 'Misread' }, 200)
    }
    await undo(id)
    expect(await changes(away)).toEqual(before)
    expect(await changes(kept)).toEqual(own)
  })

  it('is undone in the reverse order', async () => {
    const unitId = await makeUnit(test.office)
    const [a, b, c] = [
      await makeSoldier(test.office, unitId),
      await makeSoldier(test.office, unitId),
      await makeSoldier(test.office, unitId),
    ]
    const first = await merge(b, a)
    const second = await merge(c, b)
    expect(await test.office.get(`/api/soldiers/${a}`)).toMatchObject({ id: c })
    await test.office.refused(409, 'POST', `/api/merges/${first.id}/undo`, { reason: 'No' })
    await undo(second.id)
    expect(await test.office.get(`/api/soldiers/${a}`)).toMatchObject({ id: b })
    await undo(first.id)
    expect(await test.office.get(`/api/soldiers/${a}`)).toMatchObject({ id: a })
  })
})

describe('two people', () => {
  it('are not made one: each other’s sponsor, grader, or both with an account', async () => {
    const setting = await makeTestSetting(test.office)
    await putSheet(test.office, setting.sheet())
    const { candidateId, sponsorId, graderId, unitId } = setting
    const rules = async (keptId: string, awayId: string) =>
      (await preview(keptId, awayId)).obstacles.map(({ rule }) => rule)
    expect(await rules(candidateId, sponsorId)).toEqual(['coached-each-other', 'met-at-tests'])
    expect(await rules(candidateId, graderId)).toEqual(['met-at-tests'])
    expect(await rules(sponsorId, graderId)).toEqual(['met-at-tests'])
    await test.office.refused(409, 'POST', `/api/soldiers/${candidateId}/merges`, { awayId: graderId, reason: 'No' })
    const [one, other] = [await makeSoldier(test.office, unitId), await makeSoldier(test.office, unitId)]
    for (const soldierId of [one, other]) await test.signedIn({ name: soldierId, roles: ['soldier'], soldierId })
    expect(await rules(one, other)).toEqual(['accounts'])
    await test.office.refused(422, 'POST', `/api/soldiers/${one}/merges`, { awayId: one, reason: 'Same' })
    await test.office.refused(422, 'POST', `/api/soldiers/${one}/merges`, { awayId: randomUUID(), reason: 'Nobody' })
    await test.office.refused(404, 'POST', `/api/soldiers/${randomUUID()}/merges`, { awayId: one, reason: 'Nobody' })
  })

  it('with absences that overlap in part are told to mend them; what lies within is put aside', async () => {
    const unitId = await makeUnit(test.office)
    const [kept, away] = [await makeSoldier(test.office, unitId), await makeSoldier(test.office, unitId)]
    const absent = (id: string, from: string, through: string) =>
      test.office.post(`/api/soldiers/${id}/absences`, { from, through, kind: 'leave' })
    await absent(kept, '2026-06-01', '2026-06-10')
    await absent(away, '2026-06-03', '2026-06-05')
    const { id } = await absent(away, '2026-06-09', '2026-06-12')
    expect((await preview(kept, away)).obstacles.map(({ rule }) => rule)).toEqual(['absences'])
    await test.office.put(`/api/absences/${id}`, { from: '2026-06-11', through: '2026-06-12', kind: 'leave' }, 200)
    const made = await merge(kept, away)
    const of = async (soldier: string) =>
      (await test.office.get<{ items: object[] }>(`/api/soldiers/${soldier}/absences`)).items.length
    expect(await of(kept)).toBe(2)
    await undo(made.id)
    expect([await of(kept), await of(away)]).toEqual([1, 2])
  })

  it('may both be certified sponsors: what they sponsored is judged by what they hold together', async () => {
    const setting = await makeTestSetting(test.office)
    const twin = await makeSoldier(test.office, setting.unitId)
    const { candidateId } = await makeTestSetting(test.office, setting)
    await test.office.post(`/api/soldiers/${candidateId}/sponsorships`, {
      sponsorId: twin,
      from: '2025-12-01',
      to: '2025-12-31',
    })
    const held = await putSheet(test.office, {
      ...setting.sheet({ candidateId, sponsorId: twin }),
      ...times('2025-12-20'),
    })
    expect(held).toMatchObject({ state: 'held', violations: [{ rule: 'sponsor-not-certified' }] })
    const { id } = await merge(setting.sponsorId, twin)
    expect(await test.office.get(`/api/sheets/${held.id}`)).toMatchObject({ state: 'counted', violations: [] })
    await undo(id)
    expect(await test.office.get(`/api/sheets/${held.id}`)).toMatchObject({
      state: 'held',
      violations: [{ rule: 'sponsor-not-certified' }],
    })
    await carryOver(test.office, twin, setting.certification)
    expect(await test.office.get(`/api/sheets/${held.id}`)).toMatchObject({ state: 'counted' })
  })
})

describe('the second person of an amendment', () => {
  it('is not who sponsored the test under an entry given up since', async () => {
    const setting = await makeTestSetting(test.office)
    const { sponsorId: away, unitId } = setting
    const sheet = setting.sheet({ ...times('2026-03-02'), ...NO_GO_MARKS })
    const { id } = await putSheet(test.office, sheet)
    const amendment = { reason: 'Misread', sheet: { ...sheet, ...GO_MARKS } }
    const proposed = await test.office.post(`/api/sheets/${id}/amendments`, amendment, 202)
    const kept = await makeSoldier(test.office, unitId)
    await merge(kept, away)
    const confirm = { decision: 'confirm', reason: 'Compared' }
    const path = `/api/amendments/${proposed.id}/decision`
    const sponsor = await test.signedIn({ name: 'the sponsor of the office', roles: ['office'], soldierId: kept })
    const problem = await sponsor.refused(403, 'POST', path, confirm)
    // Who sponsored the test coaches the candidate.
    expect(problem.type).toBe('urn:reviewstand:problem:impartiality')
    const other = await test.signedIn({ name: 'another of the office', roles: ['office'] })
    await other.post(path, confirm, 200)
  })
})
