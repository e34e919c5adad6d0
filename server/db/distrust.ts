import type pg from 'pg'
import { dropConnection } from './drop-connection.ts'
import { DatabaseReadOnly } from './read-only.ts'

/** SQLSTATE of a write where nothing is written, as at a primary that has become a standby. */
const READ_ONLY = '25006'
/** The place in PostgreSQL that says that it waits no longer for a standby to confirm a commit (its words are translated). */
const UNCONFIRMED = 'SyncRepWaitForLSN'

interface Said {
  readonly code?: string
  readonly routine?: string
}

/**
 * Drops a connection that cannot be believed any longer: one to a server that takes no writes, and one on which a commit is about
 * to be confirmed that no synchronous standby has. PostgreSQL does the latter with a warning where its wait is
 * cancelled (syncrep.c), and a sheet confirmed so would be lost with its machine.
 */
export function dropWhenDistrusted(client: pg.Client): void {
  const { connection } = client as unknown as { connection: NodeJS.EventEmitter }
  connection.on('errorMessage', ({ code }: Said) => {
    if (code === READ_ONLY) dropConnection(client, new DatabaseReadOnly())
  })
  connection.on('notice', ({ routine }: Said) => {
    if (routine !== UNCONFIRMED) return
    // The confirmation may be in the same packet as the warning, and must not be heard.
    for (const event of ['commandComplete', 'readyForQuery']) connection.removeAllListeners(event)
    dropConnection(client, new Error('Connection terminated: no standby has confirmed'))
  })
}
