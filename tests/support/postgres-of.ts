import fs from 'node:fs'
import path from 'node:path'
import pg from 'pg'
import { adminUrl, postgresHome } from '../../server/process/postgres/postgres-home.ts'
import { findPostmaster, type Postmaster } from '../../server/process/postgres/postmaster.ts'

/** The PostgreSQL that runs on a data folder, or null. */
export function postgresOf(dataFolder: string): Postmaster | null {
  const { files } = postgresHome(path.join(dataFolder, 'postgres'))
  return fs.existsSync(files) ? findPostmaster(files) : null
}

/** Asks the product's database on a data folder, past the product. */
export async function askDatabase(dataFolder: string, sql: string): Promise<Record<string, unknown>[]> {
  const url = new URL(adminUrl(postgresHome(path.join(dataFolder, 'postgres')), postgresOf(dataFolder)!.port))
  url.pathname = '/reviewstand'
  const session = new pg.Client({ connectionString: url.href })
  await session.connect()
  try {
    return (await session.query(sql)).rows
  } finally {
    await session.end()
  }
}
