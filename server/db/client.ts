import { PrismaPg } from '@prisma/adapter-pg'
import type { Prisma } from './generated/client.ts'
import { PrismaClient } from './generated/client.ts'

/** A database of Reviewstand, with a pool of connections. */
export type Database = PrismaClient

/** A transaction, or the database itself where none is needed. */
export type Transaction = Prisma.TransactionClient

const CONNECTIONS = 10
const CONNECT_TIMEOUT_MS = 5_000
/** Longer than any question of ours takes; what hangs longer is ended by PostgreSQL. */
const STATEMENT_TIMEOUT_MS = 60_000

/** Opens a database by its address (`postgresql://…`). Connects at the first question. */
export function openDatabase(url: string): Database {
  const adapter = new PrismaPg({
    connectionString: url,
    max: CONNECTIONS,
    connectionTimeoutMillis: CONNECT_TIMEOUT_MS,
    statement_timeout: STATEMENT_TIMEOUT_MS,
    application_name: 'reviewstand',
  })
  return new PrismaClient({ adapter })
}

/** Closes all connections. */
export async function closeDatabase(db: Database): Promise<void> {
  await db.$disconnect()
}
