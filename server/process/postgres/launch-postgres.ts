import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import { setTimeout } from 'node:timers/promises'
import type pg from 'pg'
import { connectAdmin } from './connect-admin.ts'
import { freePort } from './free-port.ts'
import { postgresAccount } from './postgres-account.ts'
import { spawnOnCluster } from './postgres-command.ts'
import type { PostgresHome } from './postgres-home.ts'
import type { PostgresPrograms } from './postgres-programs.ts'
import { findPostmaster } from './postmaster.ts'

/** What the server is started with; the rest is PostgreSQL's default, such as fsync and synchronous_commit on. */
const settings = {
  listen_addresses: '127.0.0.1',
  unix_socket_directories: '',
  shared_buffers: '256MB',
  random_page_cost: '1.1',
  jit: 'off',
  TimeZone: 'UTC',
  log_timezone: 'UTC',
  // Its log is about the server. What goes wrong with a statement the product reports itself; here it could show names.
  log_min_messages: 'log',
  log_min_error_statement: 'panic',
  log_error_verbosity: 'terse',
  log_checkpoints: 'off',
}

/** Why a server did not come up. */
export type LaunchFailure =
  | { outcome: 'another one runs' }
  | { outcome: 'port taken' }
  | { outcome: 'memory of the last one still in use' }
  | { outcome: 'failed'; reason: string }

export interface Launched {
  outcome: 'up'
  server: ChildProcess
  port: number
  /** A connection of the superuser to the database `postgres`. */
  session: pg.Client
}

/**
 * Starts the server on a cluster and waits until it answers, however long it needs to recover after a crash.
 * @param options durable: false only where the data may be lost with the power, as in tests; port: left out, a free one
 */
export async function launchPostgres(
  programs: PostgresPrograms,
  home: PostgresHome,
  options: { durable: boolean; port?: number },
): Promise<Launched | LaunchFailure> {
  const { durable, port = await freePort() } = options
  const chosen = { port, ...settings, ...(durable ? {} : { fsync: 'off', full_page_writes: 'off' }) }
  const { log, start } = openLog(home.log)
  // A session of its own: Ctrl-C at the terminal is for us, and we stop PostgreSQL last.
  const server = spawnOnCluster(
    programs,
    {
      program: 'postgres',
      files: home.files,
      args: (files) => ['-D', files, ...Object.entries(chosen).flatMap(([name, value]) => ['-c', `${name}=${value}`])],
    },
    { stdio: ['ignore', log, log], detached: true },
  )
  fs.closeSync(log)
  stopWithUs(server, home)
  const session = await Promise.race([once(server, 'exit').then(() => null), connectWhenReady(server, home)])
  return session === null ? whyNot(home.log, start) : { outcome: 'up', server, port, session }
}

async function connectWhenReady(server: ChildProcess, home: PostgresHome): Promise<pg.Client | null> {
  while (server.exitCode === null && server.signalCode === null) {
    const running = findPostmaster(home.files)
    const isOurs = running?.pid === server.pid && running?.isReady
    const session = isOurs ? await connectAdmin(home, running.port) : null
    if (session !== null) return session
    await setTimeout(40)
  }
  return null
}

/**
 * Opens the log for adding to it. One that is long, that a start by root has left to another user, or that is a link, is put
 * aside, in the place of the one put aside before.
 */
function openLog(file: string): { log: number; start: number } {
  const found = fs.lstatSync(file, { throwIfNoEntry: false })
  const kept = found?.isFile() && found.size < 1_000_000 && mayAdd(found) ? found : null
  if (found && !kept) fs.renameSync(file, `${file}.before`)
  return { log: fs.openSync(file, 'a', 0o600), start: kept?.size ?? 0 }
}

function mayAdd({ uid, nlink }: fs.Stats): boolean {
  const us = process.getuid?.() ?? uid
  return nlink === 1 && (us === uid || us === 0)
}

/**
 * Ends the server when our process ends without having stopped it: a shell waits for its input, which closes with us,
 * even after a SIGKILL, and then asks the server to stop. Windows has no such shell and gets what Node can do.
 */
function stopWithUs(server: ChildProcess, { files }: PostgresHome): void {
  if (process.platform === 'win32') {
    process.once('exit', () => server.kill())
    return
  }
  const watch = spawn('/bin/sh', ['-c', 'read -r _; kill -INT "$1"', 'watch', String(server.pid)], {
    ...postgresAccount(files),
    stdio: ['pipe', 'ignore', 'ignore'],
    detached: true,
    cwd: '/',
    env: {},
  })
  watch.unref()
  ;(watch.stdin as unknown as { unref(): void }).unref()
  server.unref()
  server.once('exit', () => watch.kill('SIGKILL'))
}

function whyNot(log: string, start: number): LaunchFailure {
  const said = fs.readFileSync(log).subarray(start).toString()
  if (said.includes('lock file "postmaster.pid" already exists')) return { outcome: 'another one runs' }
  if (said.includes('could not create any TCP/IP sockets')) return { outcome: 'port taken' }
  if (said.includes('pre-existing shared memory block')) return { outcome: 'memory of the last one still in use' }
  const reason = /(?:FATAL|PANIC): +(.*)/.exec(said)?.[1] ?? said.trim().split('\n').at(-1) ?? ''
  return { outcome: 'failed', reason }
}
