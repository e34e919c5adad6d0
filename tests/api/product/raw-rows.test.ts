import { afterAll, beforeAll, expect, it } from 'vitest'
import { lockSisters } from '../../../server/access/db/units.db.ts'
import type { Transaction } from '../../../server/db/client.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeUnit } from '../../support/factories.ts'
import { takeMisfits } from '../../support/rows/watch-rows.ts'

let test: TestApp

beforeAll(async () => {
  test = await buildTestApp()
  await makeUnit(test.office)
  await test.sql('ALTER TABLE unit ALTER COLUMN name DROP NOT NULL')
})
afterAll(() => test.close())

async function namesGone(tx: Transaction): Promise<void> {
  await tx.$executeRaw`UPDATE unit SET name = NULL`
  await lockSisters(tx, null)
}

it('rows that are as their type says are nothing to tell of', async () => {
  await test.db.$transaction((tx) => lockSisters(tx, null))
  expect(takeMisfits()).toEqual([])
})

it('rows that are not are told of with the place of their query, in a transaction and outside', async () => {
  const told = [
    expect.stringMatching(/^server\/access\/db\/units\.db\.ts:\d+: \[0]\.name: string expected, null came$/),
  ]
  await test.db.$transaction(namesGone)
  expect(takeMisfits()).toEqual(told)
  await namesGone(test.db)
  expect(takeMisfits()).toEqual(told)
})

it('a question that is no query of the server is told of', async () => {
  await test.db.$queryRaw`SELECT 2`
  expect(takeMisfits()).toEqual(['No query of the server: SELECT 2'])
})
