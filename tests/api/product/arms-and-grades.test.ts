import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ArmsAndGrades, ArmsAndGradesUse } from '../../../server/contract/arms-and-grades/arms-and-grades.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import {
  makeCertification,
  makeSoldier,
  makeStandard,
  makeTestSetting,
  makeUnit,
  putSheet,
} from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z' })
})
afterAll(() => test?.close())

const PATH = '/api/arms-and-grades'
const lists = () => test.office.get<ArmsAndGrades>(PATH)
const codesOf = (entries: readonly { code: string }[]) => entries.map(({ code }) => code)

describe('the lists of grades and arms', () => {
  it('are empty in a unit that has nothing yet', async () => {
    const { grades, arms } = await lists()
    expect([grades, arms]).toEqual([[], []])
  })

  it('take in what is sent by a script, not confirmed and on record, and once', async () => {
    const unitId = await makeUnit(test.office, {})
    await makeSoldier(test.office, unitId, { rosterNumber: 'L1', grade: 'SPC', arms: ['rifle', 'guidon'] })
    await makeSoldier(test.office, unitId, { rosterNumber: 'L2', grade: 'SPC', arms: ['rifle'] })
    const { grades, arms } = await lists()
    expect(grades).toEqual([{ code: 'SPC', name: '', officer: false, confirmed: false }])
    expect(arms.map(({ code, confirmed }) => [code, confirmed])).toEqual([
      ['guidon', false],
      ['rifle', false],
    ])
    const entries = await test.sql("SELECT after FROM record_entry WHERE action = 'lists.added'")
    expect(entries).toEqual([{ after: { grades: ['SPC'], arms: ['guidon', 'rifle'], confirmed: false } }])
  })

  it('are put in order, named and confirmed by the office, and read by everybody', async () => {
    const before = await lists()
    const grades = [
      { code: 'PVT', name: 'Private', officer: false, confirmed: true },
      { code: 'SPC', name: 'Specialist', officer: false, confirmed: true },
      { code: '2LT', name: 'Second lieutenant', officer: true, confirmed: true },
    ]
    const arms = [...before.arms].reverse().map((arm) => ({ ...arm, confirmed: true }))
    const saved = await test.office.put<ArmsAndGrades>(PATH, { ...before, grades, arms }, 200)
    expect(saved.grades).toEqual(grades)
    expect(codesOf(saved.arms)).toEqual(['rifle', 'guidon'])
    const reader = await test.signedIn({ name: 'reader', roles: ['grader'] })
    expect(await reader.get(PATH)).toEqual(saved)
    await reader.refused(403, 'PUT', PATH, saved)
    const stale = await test.office.refused(409, 'PUT', PATH, { ...before, grades, arms })
    expect(stale.type).toContain('stale-lists')
  })

  it('keep what is in use, and let go of what is not', async () => {
    const before = await lists()
    const without = (code: string) => ({
      ...before,
      grades: before.grades.filter((grade) => grade.code !== code),
    })
    const refused = await test.office.refused(409, 'PUT', PATH, without('SPC'))
    expect(refused.detail).toContain('The grade SPC is in use')
    expect(codesOf((await test.office.put<ArmsAndGrades>(PATH, without('PVT'), 200)).grades)).toEqual(['SPC', '2LT'])
  })

  it('refuse one that is in twice, and say where', async () => {
    const before = await lists()
    const refused = await test.office.refused(422, 'PUT', PATH, {
      ...before,
      arms: [...before.arms, before.arms[0]!],
    })
    expect(refused.errors?.[0]).toMatchObject({ pointer: '/arms/2/code' })
  })

  it('take in what a change, its correction, a standard and a certification name', async () => {
    const unitId = await makeUnit(test.office, {})
    const id = await makeSoldier(test.office, unitId, { rosterNumber: 'L3', grade: 'SPC', arms: [] })
    await test.office.post(`/api/soldiers/${id}/changes`, { from: '2026-06-10', grade: 'CPL', arms: ['colors'] }, 200)
    await makeStandard(test.office, { code: 'lists', arms: ['halberd'] })
    await makeCertification(test.office, {
      code: 'lists',
      standards: ['lists'],
      arms: ['axe'],
      requiredOf: { grades: ['SGT'], units: null },
    })
    const { grades, arms } = await lists()
    expect(grades.filter(({ confirmed }) => !confirmed).map(({ code }) => code)).toEqual(['CPL', 'SGT'])
    expect(arms.filter(({ confirmed }) => !confirmed).map(({ code }) => code)).toEqual(['colors', 'halberd', 'axe'])
  })

  it('say how many have each today', async () => {
    const { grades, arms } = await test.office.get<ArmsAndGradesUse>(`${PATH}/use`)
    expect(grades).toEqual([
      { code: 'CPL', soldiers: 1 },
      { code: 'SPC', soldiers: 2 },
    ])
    expect(arms).toEqual([
      { code: 'colors', soldiers: 1 },
      { code: 'guidon', soldiers: 1 },
      { code: 'rifle', soldiers: 2 },
    ])
  })

  it('take in the arm of a sheet and of its amendment, be it held for that', async () => {
    const setting = await makeTestSetting(test.office)
    const id = randomUUID()
    const unconfirmed = async () => (await lists()).arms.filter(({ confirmed }) => !confirmed).map(({ code }) => code)
    const before = await unconfirmed()
    await putSheet(test.office, setting.sheet({ ...times('2026-03-02'), arm: 'pike' }), id)
    expect(await unconfirmed()).toEqual([...before, 'pike'])
    const sheet = setting.sheet({ ...times('2026-03-02'), arm: 'partisan' })
    await amend(test.office, await test.signedIn({ name: 'second', roles: ['office'] }), id, sheet)
    expect(await unconfirmed()).toEqual([...before, 'pike', 'partisan'])
  })
})
