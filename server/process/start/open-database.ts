import pg from 'pg'
import type { Config } from '../../config/config.ts'
import { type OwnPostgres, startOwnPostgres } from '../postgres/own-postgres.ts'
import { checkPoolers } from './check-poolers.ts'
import { makeDataFolder } from './data-folder.ts'
import { readDemoState } from './demo-marker.ts'
import { migrate } from './migrate.ts'

export interface OpenedDatabase {
  url: string
  /** Lets a second instance on the same data folder know the address this one serves. */
  serves(address: string): Promise<void>
  stop(): Promise<void>
}

interface Options {
  say: (line: string) => void
  onLost: () => void
}

/** The server of DATABASE_URL, which others may share, or the one from npm on the data folder, which is ours alone. */
export async function openServer(config: Config, options: Options): Promise<OpenedDatabase | OwnPostgres> {
  const { databaseUrl, databaseReadUrl } = config
  if (databaseUrl !== null) {
    await checkPoolers({ databaseUrl, databaseReadUrl })
    return { url: databaseUrl, serves: async () => {}, stop: async () => {} }
  }
  makeDataFolder(config.dataFolder)
  return startOwnPostgres(config.dataFolder, { durable: true, ...options })
}

/** Brings the schema up to date, and throws away a demo whose loading was broken off (only where all of it is ours). */
export async function prepareSchema(server: OpenedDatabase | OwnPostgres, say: (line: string) => void): Promise<void> {
  await migrate(server.url)
  if (!('adminUrl' in server) || (await readDemoState(server.url)) !== 'loading') return
  say('Loading the demo was broken off last time; beginning anew.')
  await recreate(server.adminUrl)
  await migrate(server.url)
}

async function recreate(adminUrl: string): Promise<void> {
  const admin = new pg.Client({ connectionString: adminUrl })
  await admin.connect()
  try {
    await admin.query('DROP DATABASE reviewstand WITH (FORCE)')
    await admin.query('CREATE DATABASE reviewstand OWNER reviewstand')
  } finally {
    await admin.end()
  }
}
