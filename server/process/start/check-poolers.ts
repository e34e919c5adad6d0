import type pg from 'pg'
import { addressesOf } from '../../config/addresses.ts'
import { StartProblem } from '../../config/start-problem.ts'
import { SESSION_LIMITS } from '../../db/client.ts'
import { databaseServer, ServerClient } from '../../db/server-client.ts'
import { connectDatabase } from './connect-database.ts'

/** SQLSTATE of a connection that asks for what a pooler does not know. */
const PROTOCOL_VIOLATION = '08P01'
/** So often two connections are watched; one that is lent for a transaction mostly goes to the other one right after. */
const LOOKS = 6

interface Urls {
  readonly databaseUrl: string
  readonly databaseReadUrl: string | null
}

/**
 * Refuses a pooler in front of PostgreSQL that we cannot work with. Locks, prepared statements and what we listen to last
 * as long as a connection; one that is lent for a transaction at a time loses them, or leaves them with somebody else.
 * A standby that does not answer is left for later.
 * @throws StartProblem that says which setting leads to it, and what to set there
 */
export async function checkPoolers({ databaseUrl, databaseReadUrl }: Urls): Promise<void> {
  const standbys = databaseReadUrl === null ? [] : addressesOf(databaseReadUrl)
  const [primary, ...others] = await Promise.all([
    hindranceAt(databaseUrl),
    ...standbys.map((address) => hindranceAt(address).catch(() => null)),
  ])
  if (primary) throw new StartProblem(explain('DATABASE_URL', primary))
  for (const hindrance of others) if (hindrance) throw new StartProblem(explain('DATABASE_READ_URL', hindrance))
}

type Hindrance = 'lends' | 'takes-no-limits'

const explain = (setting: string, hindrance: Hindrance): string =>
  hindrance === 'lends'
    ? `${setting} leads to a pooler that lends its connections for one transaction at a time (in PgBouncer: pool_mode = transaction), ` +
      'but Reviewstand needs each for as long as it lasts. ' +
      `Set pool_mode = session for its database, or let ${setting} lead to PostgreSQL itself.`
    : `${setting} leads to a pooler that refuses the limits of time on our connections. ` +
      `In PgBouncer set ignore_startup_parameters = ${Object.keys(SESSION_LIMITS).join(', ')}.`

/** Null: there is no pooler, or it lends a connection for as long as it lasts. */
async function hindranceAt(url: string): Promise<Hindrance | null> {
  const one = await connectDatabase(url)
  try {
    // PostgreSQL names a connection after the process that serves it, a pooler by a number of its own.
    const { processID } = one as unknown as { readonly processID: number }
    if ((await servedBy(one)) === processID) return null
    const other = await connectDatabase(url)
    try {
      if (await areLent(one, other)) return 'lends'
    } finally {
      await other.end()
    }
    return (await takesLimits(url)) ? null : 'takes-no-limits'
  } finally {
    await one.end()
  }
}

async function servedBy(client: pg.Client): Promise<number> {
  const { rows } = await client.query<{ pid: number }>('SELECT pg_backend_pid() AS pid')
  return rows[0]!.pid
}

/** Whether one connection is served by several processes, or two by the same one. */
async function areLent(one: pg.Client, other: pg.Client): Promise<boolean> {
  const ofOne = new Set<number>()
  const ofOther = new Set<number>()
  for (let look = 0; look < LOOKS; look += 1) {
    ofOne.add(await servedBy(one))
    ofOther.add(await servedBy(other))
  }
  return ofOne.size > 1 || ofOther.size > 1 || [...ofOne].some((pid) => ofOther.has(pid))
}

async function takesLimits(url: string): Promise<boolean> {
  const client = new ServerClient(databaseServer(url), SESSION_LIMITS)
  client.on('error', () => {}) // The connection is tried, and no more.
  try {
    await client.connect()
    return true
  } catch (error) {
    if ((error as { code?: string }).code === PROTOCOL_VIOLATION) return false
    throw error
  } finally {
    await client.end().catch(() => {})
  }
}
