import type { FastifyBaseLogger, FastifyInstance } from 'fastify'
import pg from 'pg'
import { insertAccount, type NewAccount } from '../../server/accounts/db/accounts.db.ts'
import { hashPassword } from '../../server/accounts/services/password.ts'
import { type AppOptions, buildApp } from '../../server/app.ts'
import { addressesOf } from '../../server/config/addresses.ts'
import type { CertificateKey } from '../../server/context/certificate-key.ts'
import type { MailPost } from '../../server/context/mail-post.ts'
import type { Push } from '../../server/context/push.ts'
import { closeDatabase, type Database, openDatabase } from '../../server/db/client.ts'
import { openSignals } from '../../server/process/start/open-signals.ts'
import { type Client, createClient } from './client.ts'
import { PUBLISHED_KEY } from './published-key.ts'
import { createTestDatabase, type TestDatabase } from './test-database.ts'

export const PASSWORD = 'correct horse battery staple'

export interface TestApp {
  readonly app: FastifyInstance
  readonly db: Database
  readonly databaseUrl: string
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

interface Setting extends Partial<AppOptions['config']> {
  /** RFC 3339. */
  now?: string
  /** Left out: one on the server that all tests share. */
  own?: TestDatabase
  /** Address of its standbys; left out: it has none. */
  standbys?: string
  /** Left out: no mail is sent. With one a test makes the rounds itself. */
  mail?: MailPost
  /** Left out: that of all tests. */
  certificateKey?: CertificateKey
  /** Left out: no notifications are sent. With one a test sends what is due itself. */
  push?: Push
}

/** Longer than any test. */
const NEVER_MS = 2_000_000_000

/** The product on a database of its own, listening on loopback; with settings other than usual where they are given. */
export async function buildTestApp({
  now = '2026-06-15T12:00:00Z',
  own,
  standbys,
  mail,
  push,
  certificateKey = PUBLISHED_KEY,
  ...config
}: Setting = {}): Promise<TestApp> {
  const database = own ?? (await createTestDatabase())
  const pool = new pg.Pool({ connectionString: addressesOf(database.url)[0]!, max: 4 })
  pool.on('error', () => {}) // Dropping the database may cut a connection that is about to end.
  const db = openDatabase(database.url, standbys)
  const clock = { now: new Date(now) }
  let unexpected: unknown[] = []
  const app = await buildApp({
    config: { demo: false, timeZone: 'UTC', ...config },
    db,
    clock: () => clock.now,
    signals: openSignals(database.url),
    ...(mail && { mail, mailEveryMs: NEVER_MS }),
    secretKey: Buffer.alloc(32, 1),
    certificateKey,
    ...(push && { push, pushEveryMs: NEVER_MS }),
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
    const client = createClient(app.server, config.tls?.cert)
    const { status } = await client.tries('POST', '/api/session', { name: account.name, password: PASSWORD })
    if (status !== 200) throw new AggregateError(takeUnexpected(), `Signing in as ${account.name}: ${status}`)
    return client
  }
  return {
    app,
    db,
    databaseUrl: database.url,
    clock,
    office: await signedIn({ name: 'office' }),
    nobody: createClient(app.server, config.tls?.cert),
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
