import type { FastifyBaseLogger, FastifyInstance } from 'fastify'
import pg from 'pg'
import { buildApp } from '../../server/app.ts'
import { insertAccount, type NewAccount } from '../../server/db/accounts.db.ts'
import { closeDatabase, openDatabase } from '../../server/db/client.ts'
import { hashPassword } from '../../server/services/accounts/password.ts'
import { type Client, createClient } from './client.ts'
import { createTestDatabase } from './test-database.ts'

export const PASSWORD = 'correct horse battery staple'

export interface TestApp {
  readonly app: FastifyInstance
  /** What the server takes for now. A session lasts 12 hours without use. */
  readonly clock: { now: Date }
  /** Signed in as the training office. */
  readonly office: Client
  /** Not signed in. */
  readonly nobody: Client
  /** Makes an account and signs in with it. */
  signedIn(account: Partial<NewAccount> & { name: string }): Promise<Client>
  /** Asks the database past the product. */
  sql<Row>(text: string, values?: unknown[]): Promise<Row[]>
  /** What the server logged as failed and did not expect; emptied by taking it. */
  takeUnexpected(): unknown[]
  /** Ends it; fails where a request failed unexpectedly. */
  close(): Promise<void>
}

/** The product on a database of its own, listening on loopback. `now`: RFC 3339; `timeZone`: of units that name none. */
export async function buildTestApp({ now = '2026-06-15T12:00:00Z', timeZone = 'UTC' } = {}): Promise<TestApp> {
  const database = await createTestDatabase()
  const pool = new pg.Pool({ connectionString: database.url, max: 4 })
  const db = openDatabase(database.url)
  const clock = { now: new Date(now) }
  let unexpected: unknown[] = []
  const app = await buildApp({
    config: { demo: false, timeZone },
    db,
    clock: () => clock.now,
    logger: errorsInto((error) => unexpected.push(error)),
  })
  await app.listen({ port: 0, host: '127.0.0.1' })
  const passwordHash = await hashPassword(PASSWORD)
  const takeUnexpected = () => {
    const taken = unexpected
    unexpected = []
    return taken
  }
  const signedIn: TestApp['signedIn'] = async (account) => {
    await insertAccount(db, {
      passwordHash,
      roles: ['office'],
      soldierId: null,
      unitId: null,
      createdAt: clock.now,
      ...account,
    })
    const client = createClient(app.server)
    await client.post('/api/session', { name: account.name, password: PASSWORD }, 200)
    return client
  }
  return {
    app,
    clock,
    office: await signedIn({ name: 'office' }),
    nobody: createClient(app.server),
    signedIn,
    sql: async (text, values) => (await pool.query(text, values)).rows,
    takeUnexpected,
    async close() {
      await app.close()
      await closeDatabase(db)
      await pool.end()
      await database.close()
      const failed = takeUnexpected()
      if (failed.length > 0) throw new AggregateError(failed, 'Requests failed that nobody expected to fail.')
    },
  }
}

function errorsInto(keep: (error: unknown) => void): FastifyBaseLogger {
  const nothing = () => {}
  const error = (what: unknown) => keep(what instanceof Object && 'err' in what ? what.err : what)
  const logger: FastifyBaseLogger = {
    level: 'error',
    fatal: error,
    error,
    warn: nothing,
    info: nothing,
    debug: nothing,
    trace: nothing,
    silent: nothing,
    child: () => logger,
  }
  return logger
}
