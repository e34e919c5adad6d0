import fs from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeUnit } from '../../support/factories.ts'

const migration = fs.readFileSync(
  new URL('../../../prisma/migrations/20261201024000_parts_of_names/migration.sql', import.meta.url),
  'utf8',
)

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  const unit = await makeUnit(test.office)
  const soldiers = [
    { rosterNumber: 'A100', familyName: 'Quillfeather', givenName: 'Ann', grade: 'SGT' },
    { rosterNumber: 'A200', familyName: 'Halvorsen', givenName: 'Quill', grade: 'CPL' },
    { rosterNumber: 'B100', familyName: 'O’Neill 50%', givenName: 'Sgtina', grade: 'SSG' },
  ]
  for (const soldier of soldiers) await makeSoldier(test.office, unit, soldier)
})
afterAll(() => test.close())

const find = async (search: string): Promise<string[]> => {
  const query = new URLSearchParams({ q: search })
  const { items } = await test.office.get<{ items: { rosterNumber: string }[] }>(`/api/soldiers?${query}`)
  const { count } = await test.office.get<{ count: number }>(`/api/soldiers/count?${query}`)
  expect(count).toBe(items.length)
  return items.map(({ rosterNumber }) => rosterNumber)
}
const indexes = () => test.sql("SELECT 1 FROM pg_indexes WHERE indexname = 'soldier_name_parts'")

async function expectFound(): Promise<void> {
  expect(await find('uill')).toEqual(['A100', 'A200'])
  expect(await find('FEATHER ann')).toEqual(['A100'])
  expect(await find('ann, feather')).toEqual(['A100'])
  expect(await find('100')).toEqual(['A100', 'B100'])
  // A grade as well as a name.
  expect(await find('sgt')).toEqual(['A100', 'B100'])
  expect(await find('cpl uill')).toEqual(['A200'])
  expect(await find('50%')).toEqual(['B100'])
  expect(await find('a%n')).toEqual([])
  // No word holds the space between two names.
  expect(await find('featherann')).toEqual([])
  expect(await find('zzzz')).toEqual([])
}

describe('soldiers searched for', () => {
  it('are found by parts of number, names and grade, all words together', async () => {
    expect(await indexes()).toHaveLength(1)
    await expectFound()
  })

  it('are found without the index where a role may not make the extension', async () => {
    await test.sql('DROP EXTENSION pg_trgm CASCADE')
    await test.sql(`DO $$ BEGIN
      EXECUTE format('REVOKE CREATE ON DATABASE %I FROM %I', current_database(), current_user); END $$`)
    await test.sql(migration)
    expect(await indexes()).toHaveLength(0)
    await expectFound()
  })
})
