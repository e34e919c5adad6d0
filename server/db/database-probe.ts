import pg from 'pg'
import { dropConnection } from './drop-connection.ts'

/** PostgreSQL says that it has no connection left, which it can only say while it works. */
const TOO_MANY_CONNECTIONS = '53300'

/** Asks PostgreSQL whether it is there, on a connection that no other work holds up. */
export interface DatabaseProbe {
  /** Out: whether it answered as it should; waits as long as that takes. Asked meanwhile, it gives the same answer. */
  ask(): Promise<boolean>
  /** Whether a question is under way. */
  isAsking(): boolean
  /** Ends the question under way, if any, with the answer no. */
  giveUp(): void
}

/** In: the address of the database. Connects at the first question, and again after each that failed. */
export function databaseProbe(url: string): DatabaseProbe {
  let client: pg.Client | null = null
  let asking: Promise<boolean> | null = null

  async function connected(): Promise<pg.Client> {
    if (client) return client
    const fresh = new pg.Client({ connectionString: url, keepAlive: true, application_name: 'reviewstand probe' })
    fresh.on('error', () => {}) // What waits for an answer fails by itself.
    fresh.once('end', () => {
      if (client === fresh) client = null
    })
    client = fresh
    await fresh.connect()
    return fresh
  }

  function giveUp(): void {
    if (client) dropConnection(client, new Error('The database was asked for too long'))
    client = null
  }

  async function put(): Promise<boolean> {
    const wasThere = client !== null
    try {
      await (await connected()).query('SELECT 1')
      return true
    } catch (error) {
      const isOurs = client !== null
      giveUp()
      if (wasThere && isOurs) return put() // A connection of before may have gone meanwhile, and a new one be had.
      return (error as { code?: unknown }).code === TOO_MANY_CONNECTIONS
    }
  }

  return {
    ask() {
      asking ??= put().finally(() => {
        asking = null
      })
      return asking
    },
    isAsking: () => asking !== null,
    giveUp,
  }
}
