import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { writeDemoState } from '../../server/process/start/demo-marker.ts'
import { migrate } from '../../server/process/start/migrate.ts'
import { killProducts, startProduct, startRefused } from '../support/start-product.ts'
import { createEmptyDatabase, type TestDatabase } from '../support/test-database.ts'

describe('a database given by DATABASE_URL', () => {
  let database: TestDatabase
  let settings: Record<string, string>

  beforeEach(async () => {
    database = await createEmptyDatabase()
    settings = { DATABASE_URL: database.url, REVIEWSTAND_DEMO: 'off' }
  })
  afterEach(async () => {
    await killProducts()
    await database.close()
  })

  it('is shared by processes that start together, each with its own address', async () => {
    const [one, other] = await Promise.all([startProduct(settings), startProduct(settings)])
    expect(one.url).not.toBe(other.url)
    for (const { url } of [one, other]) expect((await fetch(`${url}/api/health`)).status).toBe(200)
    expect(await one.end('SIGTERM')).toBe(0)
    expect((await fetch(`${other.url}/api/health`)).status).toBe(200)
  })

  it('is refused with the remedy when loading the demo into it was broken off', async () => {
    await migrate(database.url)
    await writeDemoState(database.url, 'loading')
    const refused = await startRefused(settings)
    expect(refused).toEqual({
      code: 1,
      printed: 'Loading the demo into this database was broken off. Empty the database and start again.\n',
    })
  })

  it('is refused when it holds the demo and the demo is off, since the passwords of the demo are public', async () => {
    await migrate(database.url)
    await writeDemoState(database.url, 'demo')
    const refused = await startRefused(settings)
    expect(refused.code).toBe(1)
    expect(refused.printed).toMatch(/^This database holds the demo, .* REVIEWSTAND_DATA .*\n$/)
  })
})
