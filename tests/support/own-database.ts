import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import pg from 'pg'
import { createCluster } from '../../server/process/postgres/create-cluster.ts'
import { freePort } from '../../server/process/postgres/free-port.ts'
import { launchPostgres } from '../../server/process/postgres/launch-postgres.ts'
import { postgresAccount } from '../../server/process/postgres/postgres-account.ts'
import { adminUrl, type PostgresHome, postgresHome, productUrl } from '../../server/process/postgres/postgres-home.ts'
import { findPostgresPrograms, type PostgresPrograms } from '../../server/process/postgres/postgres-programs.ts'
import { findPostmaster } from '../../server/process/postgres/postmaster.ts'
import { stopPostgres } from '../../server/process/postgres/stop-postgres.ts'
import { migrate } from '../../server/process/start/migrate.ts'

/** A PostgreSQL of a test's own, to be killed, stopped and frozen; its address stays the same. */
export interface OwnDatabase {
  readonly url: string
  readonly home: PostgresHome
  readonly port: number
  /** Asks it as the superuser. */
  asAdmin<Row extends object>(statement: string, database?: string): Promise<Row[]>
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
  const own = await runOwn(programs, home)
  await migrate(own.url)
  return own
}

/**
 * A standby of a database of a test's own, which streams from it. The product's role may see how far it is. Its files are a
 * copy of the primary's, which is stopped for it.
 */
export async function createOwnStandby(primary: OwnDatabase): Promise<OwnDatabase> {
  const role = `GRANT pg_read_all_stats TO reviewstand; ALTER ROLE postgres REPLICATION`
  await primary.asAdmin(role)
  await primary.stop()
  const rules = path.join(primary.home.files, 'pg_hba.conf')
  if (!fs.readFileSync(rules, 'utf8').includes('replication'))
    fs.appendFileSync(rules, 'host replication postgres 127.0.0.1/32 scram-sha-256\n')
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-own-'))
  fs.chmodSync(folder, 0o711)
  const home = postgresHome(path.join(folder, 'postgres'))
  copyOwned(primary.home.folder, home.folder)
  await primary.start()
  const { username, password, hostname, port } = new URL(adminUrl(primary.home, primary.port))
  const from = `host=${hostname} port=${port} user=${username} password=${password}`
  writeOwned(home, 'standby.signal', '')
  fs.appendFileSync(path.join(home.files, 'postgresql.auto.conf'), `primary_conninfo = '${from}'\n`)
  return runOwn(await findPostgresPrograms(postgresAccount(home.files), () => {}), home)
}

function copyOwned(from: string, to: string): void {
  const found = fs.lstatSync(from)
  if (found.isDirectory()) {
    fs.mkdirSync(to, { mode: found.mode })
    for (const name of fs.readdirSync(from)) copyOwned(path.join(from, name), path.join(to, name))
  } else fs.copyFileSync(from, to)
  fs.chownSync(to, found.uid, found.gid)
  fs.chmodSync(to, found.mode)
}

function writeOwned({ files }: PostgresHome, name: string, text: string): void {
  fs.writeFileSync(path.join(files, name), text)
  const { uid, gid } = fs.statSync(files)
  fs.chownSync(path.join(files, name), uid, gid)
}

async function runOwn(programs: PostgresPrograms, home: PostgresHome): Promise<OwnDatabase> {
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
    process.kill(pid, signal)
    for (const child of childrenOf(pid)) {
      try {
        process.kill(child, signal)
      } catch {} // It has served its connection and ended.
    }
  }
  const gone = async () => {
    while (findPostmaster(home.files) !== null) await setTimeout(50)
  }
  await start()
  return {
    url: productUrl(home, port),
    home,
    port,
    async asAdmin<Row extends object>(statement: string, database = 'reviewstand') {
      const url = new URL(adminUrl(home, port))
      url.pathname = `/${database}`
      const admin = new pg.Client({ connectionString: url.href })
      await admin.connect()
      try {
        return (await admin.query<Row>(statement)).rows
      } finally {
        await admin.end()
      }
    },
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
      fs.rmSync(path.dirname(home.folder), { recursive: true, force: true })
    },
  }
}

/** Linux, where these tests run, says it so. */
const childrenOf = (pid: number): number[] =>
  fs.readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ').filter(Boolean).map(Number)

const commandOf = (pid: number): string => fs.readFileSync(`/proc/${pid}/cmdline`, 'utf8')
