import { PrismaPg } from '@prisma/adapter-pg'
import { addressesOf } from '../config/addresses.ts'
import type { Found } from './database-probe.ts'
import type { Prisma } from './generated/client.ts'
import { PrismaClient } from './generated/client.ts'
import { noteStatement } from './standbys/reading.ts'
import { type StandbyFigures, Standbys } from './standbys/standbys.ts'
import { statementNames } from './statement-names.ts'
import { type PoolSettings, WatchedPool } from './watched-pool.ts'

/** A database of Reviewstand, with a pool of connections. */
export type Database = PrismaClient

/** A transaction, or the database itself where none is needed. */
export type Transaction = Prisma.TransactionClient

const CONNECTIONS = 10
/** Until a connection is there: a new one, or one of the pool that is free again after a burst of sheets. */
const CONNECT_TIMEOUT_MS = 20_000
/** Longer than any question of ours takes; what hangs longer is ended by PostgreSQL. */
const STATEMENT_TIMEOUT_MS = 60_000
/** Where PostgreSQL itself is gone without a word, we end the wait. */
const ANSWER_TIMEOUT_MS = 65_000
/** A transaction that does nothing for so long has lost its process, and its locks are freed. */
const IDLE_IN_TRANSACTION_MS = 60_000

/** What PostgreSQL is told with each connection, by the names it has there. */
export const SESSION_LIMITS = {
  statement_timeout: STATEMENT_TIMEOUT_MS,
  idle_in_transaction_session_timeout: IDLE_IN_TRANSACTION_MS,
} as const

interface Opened {
  readonly pool: WatchedPool
  readonly standbys: Standbys | null
  readonly statements: { all: number; named: number }
}

const opened = new WeakMap<Database, Opened>()

/**
 * Opens a database by its address (`postgresql://…`). Connects at the first question.
 * @param standbysUrl its standbys, each a host of the address; null: it has none, and everything is asked of the primary
 */
export function openDatabase(url: string, standbysUrl: string | null = null): Database {
  const nameOf = statementNames()
  const pool = new WatchedPool(settingsFor(url))
  // The adapter hands an undefined name on to the driver, which then prepares nothing; only its type says string.
  const statements = { all: 0, named: 0 }
  const statementNameGenerator = ({ sql }: { sql: string }) => {
    if (standbys !== null) noteStatement(sql)
    const name = nameOf(sql)
    statements.all += 1
    if (name !== undefined) statements.named += 1
    return name as string
  }
  const adapter = new PrismaPg(pool, { statementNameGenerator })
  const standbys = standbysUrl === null ? null : new Standbys(pool, addressesOf(standbysUrl).map(settingsFor))
  const client: Database = new PrismaClient({ adapter })
  const db = standbys === null ? client : standbys.readFor(client)
  opened.set(db, { pool, standbys, statements })
  return db
}

const settingsFor = (url: string): PoolSettings => ({
  connectionString: url,
  max: CONNECTIONS,
  connectionTimeoutMillis: CONNECT_TIMEOUT_MS,
  query_timeout: ANSWER_TIMEOUT_MS,
  ...SESSION_LIMITS,
  keepAlive: true,
  application_name: 'reviewstand',
})

/** Whether a database has standbys to read from. */
export const hasStandbys = (db: Database): boolean => opened.get(db)?.standbys != null

/** How its standbys do; empty where it has none. */
export async function standbyFigures(db: Database): Promise<StandbyFigures[]> {
  return (await opened.get(db)?.standbys?.figures()) ?? []
}

/** How PostgreSQL is found within a time, however much other work waits for it. */
export async function findDatabase(db: Database, withinMs: number): Promise<Found> {
  return (await opened.get(db)?.pool.found(withinMs)) ?? 'gone'
}

/** How busy a database is: its connections now, and statements since it was opened. */
export interface PoolFigures {
  readonly connectionsOpen: number
  readonly connectionsIdle: number
  /** Questions that wait for a connection. */
  readonly connectionsAwaited: number
  readonly statements: number
  readonly statementsNamed: number
}

export function poolFigures(db: Database): PoolFigures {
  const { pool, statements } = opened.get(db)!
  return {
    connectionsOpen: pool.totalCount,
    connectionsIdle: pool.idleCount,
    connectionsAwaited: pool.waitingCount,
    statements: statements.all,
    statementsNamed: statements.named,
  }
}

/** Closes all connections. */
export async function closeDatabase(db: Database): Promise<void> {
  await opened.get(db)?.standbys?.close()
  await db.$disconnect()
  await opened.get(db)?.pool.end()
}
