import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SoldierChange, SoldierDetail } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeTestSetting, makeUnit, putSheet } from '../../support/factories.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { times } from '../../support/sheet-body.ts'

let test: TestApp
let unitId: string
beforeAll(async () => {
  test = await buildTestApp()
  unitId = await makeUnit(test.office)
})
afterAll(() => test.close())

const changesOf = async (id: string) =>
  (await test.office.get<{ items: SoldierChange[] }>(`/api/soldiers/${id}/changes`)).items
const periodsOf = async (id: string) =>
  (await test.office.get<SoldierDetail>(`/api/soldiers/${id}`)).periods.map(({ from, grade }) => [from, grade])

describe('a correction of the past', () => {
  it('replaces or takes back what was entered, and the periods follow', async () => {
    const id = await makeSoldier(test.office, unitId, { from: '2026-01-01', grade: 'SGT' })
    const enter = (body: object) => test.office.post(`/api/soldiers/${id}/changes`, body, 200)
    await enter({ from: '2026-03-01', grade: 'SSG' })
    await enter({ from: '2026-05-01', grade: 'SFC' })
    const [joined, second, third] = await changesOf(id)
    expect(joined).toMatchObject({ from: '2026-01-01', grade: 'SGT', unitId, left: null })
    await test.office.put(
      `/api/soldiers/${id}/changes/${second!.id}`,
      { from: '2026-02-01', grade: 'SSG', reason: 'The order says February' },
      200,
    )
    expect(await periodsOf(id)).toEqual([
      ['2026-01-01', 'SGT'],
      ['2026-02-01', 'SSG'],
      ['2026-05-01', 'SFC'],
    ])
    await test.office.post(`/api/soldiers/${id}/changes/${third!.id}/remove`, { reason: 'Another Marsh' }, 200)
    expect(await periodsOf(id)).toEqual([
      ['2026-01-01', 'SGT'],
      ['2026-02-01', 'SSG'],
    ])
    const kept = await test.sql<{ action: string; reason: string; before: { change: { from: string } } }>(
      `SELECT action, reason, before FROM record_entry WHERE subject_id = $1 AND reason IS NOT NULL ORDER BY seq`,
      [id],
    )
    expect(kept).toMatchObject([
      {
        action: 'soldier.change-corrected',
        reason: 'The order says February',
        before: { change: { from: '2026-03-01' } },
      },
      { action: 'soldier.change-removed', reason: 'Another Marsh' },
    ])
  })

  it('judges sheets anew: arms that were carried after all let a held sheet count', async () => {
    const setting = await makeTestSetting(test.office)
    const { candidateId, certification } = setting
    await test.office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-02-01', arms: ['rifle'] }, 200)
    const held = await putSheet(test.office, setting.sheet({ arm: 'sword', ...times('2026-03-02') }))
    expect(held).toMatchObject({ state: 'held', violations: [{ rule: 'arm-not-allowed' }] })
    const [, change] = await changesOf(candidateId)
    const correction = { from: '2026-04-01', arms: ['rifle'], reason: 'The arms changed in April' }
    await test.office.put(`/api/soldiers/${candidateId}/changes/${change!.id}`, correction, 200)
    expect(await test.office.get(`/api/sheets/${held.id}`)).toMatchObject({ state: 'counted' })
    expect(await readStatuses(test.office, candidateId, '2026-03-15')).toMatchObject([
      { certification, status: 'certified' },
    ])
  })

  it('is refused without a reason, for what is not theirs, and where nothing would be left', async () => {
    const id = await makeSoldier(test.office, unitId, { from: '2026-01-01' })
    const other = await makeSoldier(test.office, unitId)
    const [joined] = await changesOf(id)
    const path = `/api/soldiers/${id}/changes/${joined!.id}`
    await test.office.refused(422, 'PUT', path, { from: '2025-01-01', grade: 'SGT' })
    await test.office.refused(422, 'PUT', path, { from: '2025-01-01', grade: 'SGT', reason: 'No unit any more' })
    await test.office.refused(409, 'POST', `${path}/remove`, { reason: 'Never here' })
    await test.office.refused(404, 'POST', `/api/soldiers/${other}/changes/${joined!.id}/remove`, { reason: 'No' })
    expect(await changesOf(id)).toEqual([joined])
  })

  it('mends number and names, and refuses a number that is taken', async () => {
    const id = await makeSoldier(test.office, unitId, { rosterNumber: 'N-1' })
    await makeSoldier(test.office, unitId, { rosterNumber: 'N-2' })
    const names = { rosterNumber: 'N-3', familyName: 'Marsh', givenName: 'Ada', reason: 'Misspelt' }
    expect(await test.office.put(`/api/soldiers/${id}`, names, 200)).toMatchObject({ id, familyName: 'Marsh' })
    expect(await test.office.get(`/api/soldiers/${id}`)).toMatchObject({ rosterNumber: 'N-3', givenName: 'Ada' })
    await test.office.refused(409, 'PUT', `/api/soldiers/${id}`, { ...names, rosterNumber: 'N-2' })
    await test.office.refused(422, 'PUT', `/api/soldiers/${id}`, { ...names, reason: ' ' })
  })
})
