import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import { startOwnPostgres } from '../../server/process/postgres/own-postgres.ts'
import { migrate } from '../../server/process/start/migrate.ts'
import { postgresOf } from '../support/postgres-of.ts'

export interface ScratchServer {
  /** Of the server's first process, whose children do the work. */
  readonly pid: number
  /** Of the database `postgres`, as superuser. */
  readonly adminUrl: string
  /** A folder that goes with the server, into which PostgreSQL may write. */
  readonly folder: string
  /** Makes a database with nothing in it. Out: its address, as the product's owner. */
  createBare(name: string): Promise<string>
  /** Makes a migrated, empty database. Out: its address, as the product's owner. */
  create(name: string): Promise<string>
  /** Makes a copy of one that nobody is connected to. Out: its address. */
  copy(from: string, name: string): Promise<string>
  /** Stops the server and removes all it had. */
  remove(): Promise<void>
}

/** Starts the PostgreSQL from npm in a temporary folder, as durable as the product runs it. */
export async function startScratchServer(say: (line: string) => void, onLost: () => void): Promise<ScratchServer> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-bench-'))
  fs.chmodSync(folder, 0o711)
  const server = await startOwnPostgres(folder, { durable: true, say, onLost }).catch((error: unknown) => {
    fs.rmSync(folder, { recursive: true, force: true })
    throw error
  })
  const admin = async (statement: string) => {
    const client = new pg.Client({ connectionString: server.adminUrl })
    await client.connect()
    await client.query(statement).finally(() => client.end())
  }
  const addressOf = (name: string) => {
    const url = new URL(server.url)
    url.pathname = `/${name}`
    return url.href
  }
  const createBare = async (name: string) => {
    await admin(`CREATE DATABASE ${name} OWNER reviewstand`)
    return addressOf(name)
  }
  const open = path.join(folder, 'open')
  fs.mkdirSync(open)
  fs.chmodSync(open, 0o777)
  return {
    pid: postgresOf(folder)!.pid,
    adminUrl: server.adminUrl,
    folder: open,
    createBare,
    async create(name) {
      await migrate(await createBare(name))
      return addressOf(name)
    },
    async copy(from, name) {
      await admin(`CREATE DATABASE ${name} OWNER reviewstand TEMPLATE ${from} STRATEGY file_copy`)
      return addressOf(name)
    },
    async remove() {
      await server.stop()
      fs.rmSync(folder, { recursive: true, force: true })
    },
  }
}
