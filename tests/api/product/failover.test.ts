import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { isUnreachable } from '../../../server/db/database-errors.ts'
import { WatchedPool } from '../../../server/db/watched-pool.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Answer } from '../../support/client.ts'
import { createOwnDatabase, createOwnStandby, type OwnDatabase } from '../../support/own-database.ts'

/** Longer than any answer takes. */
const WITHIN_MS = 60_000

let first: OwnDatabase
let second: OwnDatabase
let test: TestApp
beforeAll(async () => {
  first = await createOwnDatabase()
  second = await createOwnStandby(first)
  const url = first.url.replace(/@[^/]+/, `@127.0.0.1:${second.port},127.0.0.1:${first.port}`)
  test = await buildTestApp({
    own: { url: `${url}?target_session_attrs=read-write`, close: async () => {} },
  })
})
afterAll(async () => {
  test.takeUnexpected() // That the database was lost is logged.
  await test.close()
  await second.close()
  await first.close()
})

function expectUnavailable({ status, headers, body }: Answer): void {
  expect(status, JSON.stringify(body)).toBe(503)
  expect(headers['retry-after']).toMatch(/^[1-9]\d*$/)
  expect(body).toMatchObject({ type: 'urn:reviewstand:problem:database-unavailable' })
}

const tryUnit = (name: string) => test.office.tries('POST', '/api/units', { name, kind: 'unit' })
const namesIn = async (database: OwnDatabase) =>
  (await database.asAdmin<{ name: string }>('SELECT name FROM unit')).map(({ name }) => name)

/** Whatever is not stored says that the database is not there, and nothing else. */
async function storedAtLast(name: string): Promise<void> {
  for (;;) {
    const answer = await tryUnit(name)
    if (answer.status === 201) return
    expectUnavailable(answer)
  }
}

/** A setting of a server that runs; null: as it was. */
async function set(database: OwnDatabase, name: string, value: string | null): Promise<void> {
  await database.asAdmin(value === null ? `ALTER SYSTEM RESET ${name}` : `ALTER SYSTEM SET ${name} = '${value}'`)
  await database.asAdmin('SELECT pg_reload_conf()')
  for (;;) {
    const [row] = await database.asAdmin<{ setting: string }>(
      `SELECT setting FROM pg_settings WHERE name = '${name}' AND setting = COALESCE(${value === null ? 'NULL' : `'${value}'`}, boot_val)`,
    )
    if (row) return
  }
}

describe('a failover', () => {
  it('finds the host that takes writes, whichever place it has', async () => {
    await storedAtLast('Before')
    expect(await namesIn(first)).toContain('Before')
  })

  it('where a primary takes no writes any more says that it is unavailable, and never that we failed', async () => {
    await set(first, 'default_transaction_read_only', 'on')
    expectUnavailable(await tryUnit('Refused'))
    expectUnavailable(await test.nobody.tries('GET', '/api/health/ready'))
    expect(await test.nobody.get('/api/health/alive')).toEqual({ status: 'alive' })
    await set(first, 'default_transaction_read_only', null)
    await storedAtLast('Taken again')
    expect(await test.nobody.get('/api/health/ready')).toEqual({ status: 'ready' })
    expect(test.takeUnexpected()).not.toEqual([])
  })

  it('tells a primary from a standby, and from a primary that takes no writes', async () => {
    const pools = [first, second].map(({ url }) => new WatchedPool({ connectionString: url, max: 1 }))
    const found = () => Promise.all(pools.map((pool) => pool.found(WITHIN_MS)))
    expect(await found()).toEqual(['writing', 'reading'])
    await set(first, 'default_transaction_read_only', 'on')
    expect(await found()).toEqual(['reading', 'reading'])
    await set(first, 'default_transaction_read_only', null)
    expect(await found()).toEqual(['writing', 'reading'])
    for (const pool of pools) await pool.end()
  })

  it('never confirms what PostgreSQL only gives up to have confirmed by a standby', async () => {
    const pool = new WatchedPool({ connectionString: first.url, max: 1 })
    await pool.query('SELECT 1')
    await set(first, 'synchronous_standby_names', 'nobody')
    const storing = pool.query('CREATE TABLE unconfirmed ()').then(
      () => 'confirmed',
      (error: unknown) => isUnreachable(error),
    )
    const waiting = `SELECT pg_cancel_backend(pid) FROM pg_stat_activity WHERE wait_event = 'SyncRep'`
    while ((await first.asAdmin(waiting)).length === 0);
    const stored = await storing
    await set(first, 'synchronous_standby_names', null)
    await pool.end()
    expect(stored).toBe(true)
    expect(await first.asAdmin(`SELECT FROM pg_tables WHERE tablename = 'unconfirmed'`)).toHaveLength(1)
  })

  it('answers 503 while there is no primary, and goes on with the next one by itself', async () => {
    while (!(await namesIn(second)).includes('Taken again')); // It streams; what it has not is lost with the first.
    await first.kill()
    expectUnavailable(await tryUnit('Nowhere'))
    expectUnavailable(await test.office.tries('GET', '/api/units'))
    await second.asAdmin('SELECT pg_promote()')
    await storedAtLast('After')
    expect(await namesIn(second)).toEqual(expect.arrayContaining(['Before', 'Taken again', 'After']))
    expect(await namesIn(second)).not.toContain('Nowhere')
  })

  it('does not go back to a primary that was set aside and does not know it', async () => {
    await first.start()
    await second.asAdmin(
      `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'reviewstand'`,
    )
    await storedAtLast('Later')
    expect(await namesIn(second)).toContain('Later')
    expect(await namesIn(first)).not.toContain('Later')
  })
})
