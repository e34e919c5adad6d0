import type { ChildProcess } from 'node:child_process'
import { setTimeout } from 'node:timers/promises'
import { type Launched, launchPostgres } from '../postgres/launch-postgres.ts'
import type { PostgresHome } from '../postgres/postgres-home.ts'
import type { PostgresPrograms } from '../postgres/postgres-programs.ts'
import { findPostmaster, removeStalePidFile } from '../postgres/postmaster.ts'

interface Options {
  readonly programs: PostgresPrograms
  readonly home: PostgresHome
  readonly durable: boolean
  readonly say: (line: string) => void
  /** Called when it can't be had again, runs for somebody else by now, or ends again and again. */
  readonly onLost: () => void
}

/** A PostgreSQL that ends so often in so long will not stay up. */
const MOST_ENDS = 5
const WITHIN_MS = 600_000
/** How often a start is tried again while what the last one left is in its way. */
const ROUNDS = 300
const PAUSE_MS = 200

/**
 * Starts PostgreSQL again whenever it ends without our having stopped it: on its old port, so that whoever asks finds it
 * again by themselves. It recovers from its journal, so nothing that was confirmed is lost.
 * Out: how to leave it alone, before it is stopped on purpose.
 */
export function keepPostgresUp({ server, port }: Pick<Launched, 'server' | 'port'>, options: Options): () => void {
  const { home, say, onLost } = options
  const ends: number[] = []
  let running = server
  let isKept = true

  const hasEnded = async () => {
    ends.push(Date.now())
    if (ends.filter((end) => end > Date.now() - WITHIN_MS).length > MOST_ENDS) return onLost()
    say(`PostgreSQL has ended. Starting it again; its log is ${home.log}.`)
    const next = await startAgain(port, options, () => isKept).catch(() => null)
    if (next === null) return isKept ? onLost() : undefined
    say('PostgreSQL answers again.')
    watch(next)
  }
  const watch = (next: ChildProcess) => {
    running = next
    if (next.exitCode !== null || next.signalCode !== null) void hasEnded()
    else next.once('exit', hasEnded)
  }
  watch(server)
  return () => {
    isKept = false
    running.off('exit', hasEnded)
  }
}

/** @returns the server that runs now; null: it can't be had */
async function startAgain(
  port: number,
  { programs, home, durable }: Options,
  isKept: () => boolean,
): Promise<ChildProcess | null> {
  for (let round = 0; round < ROUNDS && isKept(); round += 1) {
    if (round > 0) await setTimeout(PAUSE_MS)
    if (findPostmaster(home.files) !== null) return null
    const launched = await launchPostgres(programs, home, { durable, port })
    if (launched.outcome === 'up') {
      await launched.session.end()
      return launched.server
    }
    if (launched.outcome === 'another one runs') removeStalePidFile(home.files)
  }
  return null
}
