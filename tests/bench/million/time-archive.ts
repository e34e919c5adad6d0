import fs from 'node:fs'
import path from 'node:path'
import pg from 'pg'
import { restoreArchive } from '../../../server/archive/restore-archive.ts'
import { saveArchive } from '../../../server/archive/save-archive.ts'

export interface ArchiveTimes {
  /** Seconds. */
  readonly saving: number
  readonly restoring: number
  /** Bytes. */
  readonly size: number
  readonly databaseSize: number
}

/** Backs a database up into a folder and restores it into an empty one, both as the commands do. */
export async function timeArchive(url: string, emptyUrl: string, folder: string): Promise<ArchiveTimes> {
  const file = path.join(folder, 'all.tar.gz')
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    const saving = await seconds(() => saveArchive(client, file, { timeZone: 'UTC', product: 'benchmark' }))
    const { rows } = await client.query('SELECT pg_database_size(current_database())::float8 AS size')
    const { size } = fs.statSync(file)
    const restoring = await seconds(() => restoreArchive(emptyUrl, file))
    return { saving, restoring, size, databaseSize: rows[0].size }
  } finally {
    await client.end()
    fs.rmSync(file, { force: true })
  }
}

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now()
  await work()
  return (performance.now() - start) / 1000
}
