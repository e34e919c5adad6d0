import type pg from 'pg'
import { dropConnection } from './drop-connection.ts'
import { type DatabaseServer, ServerClient } from './server-client.ts'

/** PostgreSQL says that it has no connection left, which it can only say while it works. */
const TOO_MANY_CONNECTIONS = '53300'
/** It is read only in recovery, too (PostgreSQL 17, 27.4.1). */
const WRITES = `SELECT current_setting('transaction_read_only') = 'off' AS writes`

/** How PostgreSQL was found: it takes writes; it answers and takes none, as in recovery; or it does not answer as it should. */
export type Found = 'writing' | 'reading' | 'gone'

/** Asks PostgreSQL whether it is there, on a connection that no other work holds up. */
export interface DatabaseProbe {
  /** Waits as long as the answer takes. Asked meanwhile, it gives the same answer. */
  ask(): Promise<Found>
  /** Whether a question is under way. */
  isAsking(): boolean
  /** Ends the question under way, if any, as one to which no answer came. */
  giveUp(): void
}

/** Connects at the first question, and again after each that failed. */
export function databaseProbe(server: DatabaseServer): DatabaseProbe {
  let client: pg.Client | null = null
  let asking: Promise<Found> | null = null

  async function connected(): Promise<pg.Client> {
    if (client) return client
    const fresh = new ServerClient(server, { keepAlive: true, application_name: 'reviewstand probe' })
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

  async function put(): Promise<Found> {
    const wasThere = client !== null
    try {
      const { rows } = await (await connected()).query<{ writes: boolean }>(WRITES)
      if (rows[0]!.writes) return 'writing'
      if (server.find === null) return 'reading'
      giveUp()
      return wasThere ? put() : 'reading' // Another host may take writes by now.
    } catch (error) {
      const isOurs = client !== null
      giveUp()
      if (wasThere && isOurs) return put() // A connection of before may have gone meanwhile, and a new one be had.
      return (error as { code?: unknown }).code === TOO_MANY_CONNECTIONS ? 'writing' : 'gone'
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
