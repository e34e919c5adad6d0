import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Absence, AbsentSoldier } from '../../../server/contract/soldiers/absences.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeUnit } from '../../support/factories.ts'

let test: TestApp
let unitId: string
beforeAll(async () => {
  test = await buildTestApp()
  unitId = await makeUnit(test.office)
})
afterAll(() => test.close())

const absencesOf = async (id: string) =>
  (await test.office.get<{ items: Absence[] }>(`/api/soldiers/${id}/absences`)).items
const absentOn = async (day: string) =>
  (await test.office.get<{ items: AbsentSoldier[] }>(`/api/absences?on=${day}&unitId=${unitId}`)).items.map(
    ({ soldierId, kind }) => [soldierId, kind],
  )

describe('an absence', () => {
  it('is entered by kind, changed, ended and taken back, and shows on its days', async () => {
    const soldier = await makeSoldier(test.office, unitId)
    const add = (body: object) => test.office.post(`/api/soldiers/${soldier}/absences`, body)
    const { id } = await add({ from: '2026-06-01', kind: 'course' })
    await add({ from: '2026-05-01', through: '2026-05-31', kind: 'duty elsewhere' })
    expect(await absentOn('2026-05-31')).toEqual([[soldier, 'duty elsewhere']])
    expect(await absentOn('2027-01-01')).toEqual([[soldier, 'course']])
    await test.office.put(`/api/absences/${id}`, { from: '2026-06-02', through: '2026-06-20', kind: 'leave' }, 200)
    expect(await absentOn('2026-06-01')).toEqual([])
    expect(await absentOn('2026-06-20')).toEqual([[soldier, 'leave']])
    expect(await absentOn('2026-06-21')).toEqual([])
    expect((await absencesOf(soldier)).map(({ from }) => from)).toEqual(['2026-06-02', '2026-05-01'])
    expect((await test.office.tries('DELETE', `/api/absences/${id}`)).status).toBe(204)
    await test.office.refused(404, 'DELETE', `/api/absences/${id}`)
    expect(await absencesOf(soldier)).toHaveLength(1)
    const acts = await test.sql<{ action: string }>(
      `SELECT action FROM record_entry WHERE subject_id = $1 AND action LIKE 'absence%' ORDER BY seq`,
      [soldier],
    )
    expect(acts.map(({ action }) => action)).toEqual([
      'absence.added',
      'absence.added',
      'absence.changed',
      'absence.removed',
    ])
  })

  it('is refused with what it must not be: another kind, any text, days that overlap or run backwards', async () => {
    const soldier = await makeSoldier(test.office, unitId)
    const path = `/api/soldiers/${soldier}/absences`
    await test.office.post(path, { from: '2026-06-01', through: '2026-06-10', kind: 'leave' })
    await test.office.refused(409, 'POST', path, { from: '2026-06-10', kind: 'course' })
    await test.office.refused(422, 'POST', path, { from: '2026-07-01', kind: 'sick' })
    await test.office.refused(422, 'POST', path, { from: '2026-07-01', kind: 'leave', note: 'Broken arm' })
    await test.office.refused(422, 'POST', path, { from: '2026-07-02', through: '2026-07-01', kind: 'leave' })
    const { id } = await test.office.post(path, { from: '2026-06-11', kind: 'course' })
    await test.office.refused(409, 'PUT', `/api/absences/${id}`, { from: '2026-06-05', kind: 'course' })
  })

  it('filters the roster as of a day, as grade, arm and having left do', async () => {
    const home = await makeUnit(test.office)
    const [absent, present, gone] = [
      await makeSoldier(test.office, home, { grade: 'CPL', arms: ['rifle'] }),
      await makeSoldier(test.office, home, { grade: 'SGT', arms: ['sword'] }),
      await makeSoldier(test.office, home, { grade: 'SGM', arms: ['saber'] }),
    ]
    await test.office.post(`/api/soldiers/${absent}/absences`, { from: '2026-06-01', kind: 'leave' })
    await test.office.post(`/api/soldiers/${gone}/changes`, { from: '2026-03-01', left: 'separated' }, 200)
    const found = async (query: string) =>
      (
        await test.office.get<{ items: { id: string }[] }>(`/api/soldiers?asOf=2026-06-15&limit=500&${query}`)
      ).items.map(({ id }) => id)
    expect(await found(`unitId=${home}&strength=absent`)).toEqual([absent])
    expect(await found(`unitId=${home}&strength=serving`)).toEqual([absent, present])
    expect(await found('strength=left')).toEqual([gone])
    expect(await found(`unitId=${home}&grade=SGT`)).toEqual([present])
    expect(await found(`unitId=${home}&arm=rifle`)).toEqual([absent])
    expect(await found('grade=SGM')).toEqual([gone])
  })
})
