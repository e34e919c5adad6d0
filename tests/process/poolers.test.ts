import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import { checkPoolers } from '../../server/process/start/check-poolers.ts'
import { openPooler, type Pooler } from '../support/pooler.ts'
import { startRefused } from '../support/start-product.ts'
import { createEmptyDatabase, type TestDatabase } from '../support/test-database.ts'

let database: TestDatabase
let pooler: Pooler | null = null
beforeAll(async () => {
  database = await createEmptyDatabase()
})
afterEach(async () => {
  await pooler?.close()
  pooler = null
})
afterAll(() => database.close())

const GONE = 'postgresql://anybody@127.0.0.1:1/any'

it('refuses to start by a pooler that lends connections for a transaction, and says what to set', async () => {
  pooler = await openPooler(database.url, { lends: true, refusesLimits: false })
  expect(await startRefused({ DATABASE_URL: pooler.url, REVIEWSTAND_DEMO: 'off' })).toEqual({
    code: 1,
    printed: expect.stringMatching(/^DATABASE_URL leads to a pooler .* Set pool_mode = session .*\n$/),
  })
})

it('refuses one in front of a standby, too', async () => {
  pooler = await openPooler(database.url, { lends: true, refusesLimits: false })
  const checked = checkPoolers({ databaseUrl: database.url, databaseReadUrl: pooler.url })
  await expect(checked).rejects.toThrow(/^DATABASE_READ_URL leads to a pooler/)
})

it('says what a pooler has to let through', async () => {
  pooler = await openPooler(database.url, { lends: false, refusesLimits: true })
  const checked = checkPoolers({ databaseUrl: pooler.url, databaseReadUrl: null })
  await expect(checked).rejects.toThrow(
    'ignore_startup_parameters = statement_timeout, idle_in_transaction_session_timeout',
  )
})

it('takes one that lends a connection for as long as it lasts, and a standby that is gone', async () => {
  pooler = await openPooler(database.url, { lends: false, refusesLimits: false })
  await checkPoolers({ databaseUrl: pooler.url, databaseReadUrl: null })
  await checkPoolers({ databaseUrl: database.url, databaseReadUrl: GONE })
})
