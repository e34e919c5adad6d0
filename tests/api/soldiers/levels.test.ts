import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { UnitLevel, UnitLevels } from '../../../server/contract/soldiers/levels.ts'
import type { Unit } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeUnit } from '../../support/factories.ts'
import { makeImporter } from '../../support/import-file.ts'
import { pagesOf } from '../../support/pages-of.ts'

const PATH = '/api/unit-levels'
let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

const read = () => test.office.get<UnitLevels>(PATH)
const level = (code: string, many: string, compared = false): UnitLevel => ({ code, one: code, many, compared })

/** A fire service: its department, stations that findings compare, teams, details. */
const FIRE: readonly UnitLevel[] = [
  { code: 'unit', one: 'department', many: 'departments', compared: false },
  level('station', 'stations', true),
  level('watch', 'watches'),
  level('detail', 'details'),
]

describe('the levels of units', () => {
  it('are three to begin with, which nobody has said yet', async () => {
    const { levels, isOwn } = await read()
    expect(isOwn).toBe(false)
    expect(levels.map(({ code, many, compared }) => [code, many, compared])).toEqual([
      ['unit', 'units', false],
      ['company', 'companies', true],
      ['platoon', 'platoons', false],
    ])
    const leader = await test.signedIn({ name: 'leads', roles: ['leader'], unitId: await makeUnit(test.office) })
    expect(await leader.get(PATH)).toMatchObject({ isOwn: false })
    await leader.refused(403, 'PUT', PATH, { levels, version: 'x' })
  })

  it('are called what the unit calls them, on record, and units can be of no other', async () => {
    const { version } = await read()
    const saved = await test.office.tries('PUT', PATH, { levels: FIRE, version })
    expect(saved).toMatchObject({ status: 200, body: { levels: FIRE, isOwn: true } })
    await test.office.refused(409, 'PUT', PATH, { levels: FIRE, version })
    const [entry] = await test.sql<{ after: UnitLevels }>(
      "SELECT after FROM record_entry WHERE action = 'unit.levels-changed'",
    )
    expect(entry!.after.levels).toEqual(FIRE)
    const wrong = await test.office.refused(422, 'POST', '/api/units', { name: 'A Company', kind: 'company' })
    expect(wrong.errors).toMatchObject([{ pointer: '/kind', rule: 'unknown-level' }])
    expect(wrong.detail).toContain('unit, station, watch, detail')
    const id = await makeUnit(test.office, { name: 'North Station', kind: 'station' })
    await test.office.refused(422, 'PATCH', `/api/units/${id}`, { kind: 'platoon' })
  })

  it('stay where a unit is of one, and change their word all the same', async () => {
    const { version } = await read()
    const without = FIRE.map((one) => (one.code === 'station' ? level('house', 'houses', true) : one))
    const stays = await test.office.refused(409, 'PUT', PATH, { levels: without, version })
    expect(stays.detail).toContain('There are units of the level “station”')
    const renamed = FIRE.map((one) => (one.code === 'station' ? { ...one, one: 'house', many: 'houses' } : one))
    await test.office.tries('PUT', PATH, { levels: renamed, version })
    expect((await read()).levels[1]).toMatchObject({ code: 'station', one: 'house' })
  })

  it('are refused twice, blank, or with none or two to compare', async () => {
    const { version } = await read()
    const wrong: [UnitLevel[], string][] = [
      [[], '/levels'],
      [[level('team', 'teams')], '/levels'],
      [[level('a', 'a', true), level('b', 'b', true)], '/levels'],
      [[level('a', 'a', true), level('a', 'b')], '/levels/1/code'],
      [[level('a', 'a', true), { ...level('b', 'b'), one: 'A' }], '/levels/1/one'],
      [[{ ...level('a', 'a', true), one: ' ' }], '/levels/0/one'],
    ]
    for (const [levels, pointer] of wrong) {
      const problem = await test.office.refused(422, 'PUT', PATH, { levels, version })
      expect(problem.errors, JSON.stringify(levels)).toMatchObject([{ pointer }])
    }
  })

  it('are the columns of a roster, and the levels of the units it makes', async () => {
    const { id } = await test.office.post('/api/units', { name: 'Calloway Fire', kind: 'unit' })
    expect(id).toBeDefined()
    const importer = await makeImporter(test)
    const roster =
      'Roster number,Family name,Given name,Grade,Arms,Unit,House,Watch,Detail,From\n' +
      'F1,Orr,Lou,FF,none,Calloway Fire,South House,Blue Watch,Color Detail,2026-01-01\n'
    const sent = await importer.send(roster)
    await importer.check(sent)
    const [row] = await importer.rows(sent)
    expect(row, JSON.stringify(row)).toMatchObject({ outcome: 'added' })
    await importer.store(sent)
    const units = await pagesOf<Unit>(test.office, '/api/units', 500)
    const kindOf = (name: string) => units.find((unit) => unit.name === name)?.kind
    expect(['South House', 'Blue Watch', 'Color Detail'].map(kindOf)).toEqual(['station', 'watch', 'detail'])
  })
})
