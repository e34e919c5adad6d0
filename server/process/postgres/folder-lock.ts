import { setTimeout } from 'node:timers/promises'
import type pg from 'pg'
import { tryConnect } from './try-connect.ts'

/** Number of our advisory lock in the database `postgres`, in which nothing else of ours uses any. */
const lockNumber = 41_800_001

/** Who uses a data folder. */
export interface FolderUser {
  /** What it says of itself: process id and address. */
  name: string
  since: Date
}

/** What this process says of itself. */
export function nameInLock(address = ''): string {
  return `process ${process.pid} ${address}`.trim()
}

/**
 * The data folder is ours as long as one session of ours holds an advisory lock in the PostgreSQL that runs on it. The
 * lock is kept by the very server it protects: it goes when our process dies, however it dies, so none is left behind,
 * no process id has to be trusted, and of two processes that ask at once one gets it.
 * @param session a connection to the database `postgres`
 * @returns null: it is ours now; else who has it
 */
export async function tryFolderLock(session: pg.Client): Promise<FolderUser | null> {
  const { rows } = await session.query<{ taken: boolean }>('SELECT pg_try_advisory_lock($1) AS taken', [lockNumber])
  if (rows[0]?.taken) return null
  const holder = await session.query<FolderUser>(
    `SELECT application_name AS name, backend_start AS since FROM pg_locks JOIN pg_stat_activity USING (pid)
     WHERE locktype = 'advisory' AND granted AND classid = 0 AND objid = $1 AND objsubid = 1
       AND pg_locks.database = (SELECT oid FROM pg_database WHERE datname = current_database())`,
    [lockNumber],
  )
  // It may have ended between the two questions; when we asked it was there.
  return holder.rows[0] ?? { name: 'another process', since: new Date() }
}

export interface KeptLock {
  /** Tells others the address this process serves. */
  serves(address: string): Promise<void>
  /** Stops looking after the lock, before PostgreSQL is stopped on purpose. */
  letGo(): void
}

/**
 * Looks after a lock: a crash inside PostgreSQL cuts every session and PostgreSQL comes back by itself; then the lock is
 * taken again. So it is when PostgreSQL was killed and is started again.
 * @param session the one that holds it
 * @param url where to connect again
 * @param onLost called when it can't be had again within minutes, or somebody else has it
 */
export function keepFolderLock({ session, url }: { session: pg.Client; url: string }, onLost: () => void): KeptLock {
  let held = session
  let name = nameInLock()
  let isKept = true
  const takeAgain = async () => {
    for (const end = Date.now() + 300_000; isKept && Date.now() < end; await setTimeout(200)) {
      const next = await tryConnect(url, name).catch(() => null)
      if (next === null) continue
      if ((await tryFolderLock(next)) !== null) break
      held = next
      held.once('end', takeAgain)
      return
    }
    if (isKept) onLost()
  }
  session.once('end', takeAgain)
  return {
    async serves(address) {
      name = nameInLock(address)
      await held.query("SELECT set_config('application_name', $1, false)", [name])
    },
    letGo() {
      isKept = false
    },
  }
}
