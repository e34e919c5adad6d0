import type pg from 'pg'
import { addressesOf } from '../../config/addresses.ts'
import { StartProblem } from '../../config/start-problem.ts'
import { DatabaseReadOnly } from '../../db/read-only.ts'
import { databaseServer, ServerClient } from '../../db/server-client.ts'

/**
 * Connects to the product's database.
 * @throws StartProblem that says what stands in the way and what to do; it names the server, never the password
 */
export async function connectDatabase(url: string): Promise<pg.Client> {
  const client = new ServerClient(databaseServer(url), {
    application_name: 'reviewstand',
    connectionTimeoutMillis: 10_000,
  })
  client.on('error', () => {}) // A connection that breaks while idle shows at its next use.
  try {
    await client.connect()
    return client
  } catch (cause) {
    await client.end().catch(() => {})
    throw new StartProblem(explain(addressesOf(url), cause as NodeJS.ErrnoException), { cause })
  }
}

function explain(addresses: readonly string[], error: NodeJS.ErrnoException): string {
  const urls = addresses.map((each) => new URL(each))
  const server = urls.map((url) => url.host || url.searchParams.get('host') || 'localhost').join(', ')
  const database = decodeURIComponent(urls[0]!.pathname.slice(1))
  if (error instanceof DatabaseReadOnly)
    return `No PostgreSQL that takes writes answers at ${server}. Start the primary, or correct DATABASE_URL.`
  switch (error.code) {
    case 'ECONNREFUSED':
      return `No PostgreSQL answers at ${server}. Start it, or correct DATABASE_URL.`
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return `The host of ${server} is not known. Correct DATABASE_URL.`
    case '28P01':
    case '28000':
      return `PostgreSQL at ${server} does not let us in (${error.message}). Correct user and password in DATABASE_URL.`
    case '3D000':
      return `PostgreSQL at ${server} has no database ${JSON.stringify(database)}. Create it, empty, or correct DATABASE_URL.`
    default:
      return `PostgreSQL at ${server} can't be used: ${error.message || error.code}. Check it and DATABASE_URL.`
  }
}
