import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { createCluster } from '../../server/process/postgres/create-cluster.ts'
import { freePort } from '../../server/process/postgres/free-port.ts'
import { launchPostgres } from '../../server/process/postgres/launch-postgres.ts'
import { postgresAccount } from '../../server/process/postgres/postgres-account.ts'
import { postgresHome, productUrl } from '../../server/process/postgres/postgres-home.ts'
import { findPostgresPrograms } from '../../server/process/postgres/postgres-programs.ts'
import { findPostmaster } from '../../server/process/postgres/postmaster.ts'
import { stopPostgres } from '../../server/process/postgres/stop-postgres.ts'
import { migrate } from '../../server/process/start/migrate.ts'

/** A PostgreSQL of a test's own, to be killed, stopped and frozen; its address stays the same. */
export interface OwnDatabase {
  readonly url: string
  /** Ends the server with SIGKILL; what it leaves behind ends as well. */
  kill(): Promise<void>
  /** Ends one that serves a connection with SIGKILL, which PostgreSQL takes for a crash of its own. */
  killOne(): Promise<void>
  stop(): Promise<void>
  /** Stops every process of it where it is: nothing answers, nothing is closed. */
  freeze(): void
  thaw(): void
  /** Starts it again, after it was killed or stopped. */
  start(): Promise<void>
  /** Ends it for good. */
  close(): Promise<void>
}

export async function createOwnDatabase(): Promise<OwnDatabase> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-own-'))
  fs.chmodSync(folder, 0o711)
  const home = postgresHome(path.join(folder, 'postgres'))
  const programs = await findPostgresPrograms(postgresAccount(home.files), () => {})
  await createCluster(programs, home.folder, false)
  const port = await freePort()

  const start = async () => {
    for (;;) {
      const launched = await launchPostgres(programs, home, { durable: false, port })
      if (launched.outcome === 'up') return launched.session.end()
      await setTimeout(100) // Processes of the one that was killed are still ending.
    }
  }
  const all = (signal: NodeJS.Signals) => {
    const { pid } = findPostmaster(home.files)!
    for (const one of [pid, ...childrenOf(pid)]) process.kill(one, signal)
  }
  const gone = async () => {
    while (findPostmaster(home.files) !== null) await setTimeout(50)
  }
  await start()
  await migrate(productUrl(home, port))
  return {
    url: productUrl(home, port),
    async kill() {
      process.kill(findPostmaster(home.files)!.pid, 'SIGKILL')
      await gone()
    },
    async killOne() {
      const { pid } = findPostmaster(home.files)!
      const serving = childrenOf(pid).filter((child) => /postgres: reviewstand /.test(commandOf(child)))
      process.kill(serving[0]!, 'SIGKILL')
    },
    stop: () => stopPostgres(programs, home.files),
    freeze: () => all('SIGSTOP'),
    thaw: () => all('SIGCONT'),
    start,
    async close() {
      if (findPostmaster(home.files)) all('SIGCONT')
      await stopPostgres(programs, home.files)
      fs.rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Linux, where these tests run, says it so. */
const childrenOf = (pid: number): number[] =>
  fs.readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ').filter(Boolean).map(Number)

const commandOf = (pid: number): string => fs.readFileSync(`/proc/${pid}/cmdline`, 'utf8')
