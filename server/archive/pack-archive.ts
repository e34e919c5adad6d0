import { createHash } from 'node:crypto'
import type { Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGzip } from 'node:zlib'
import type pg from 'pg'
import { type Pack, pack } from 'tar-stream'
import { HEAD_FILE, type Head, JSON_NULLS, MANIFEST_FILE, type Manifest, partName } from './format.ts'
import { readHead } from './read-head.ts'
import { type ArchivedTable, quoted, quotedList, readTables } from './tables.ts'

/** A part of a table is closed when it has so many bytes: this, and not the size of the unit, is what memory holds. */
const PART_BYTES = 4_194_304
const ROWS_A_FETCH = 500

interface Options {
  readonly timeZone: string
  readonly product: string
  /** Told how many of all rows are written. */
  readonly onProgress?: (done: number, all: number) => void
}

/**
 * Writes everything a database holds, as it is at one moment, into a stream, while others go on working with it.
 * @returns what is in the archive
 */
export async function packArchive(database: pg.Client, target: Writable, options: Options): Promise<Manifest> {
  await database.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY')
  const archive = pack()
  const written = pipeline(archive, createGzip(), target)
  try {
    await database.query("SET LOCAL TimeZone = 'UTC'; SET LOCAL DateStyle = 'ISO'; SET LOCAL statement_timeout = 0")
    const filled = fill(database, archive, options)
    // Whichever fails first ends the other.
    filled.catch((error) => archive.destroy(error))
    await Promise.all([filled, written])
    return await filled
  } finally {
    await database.query('ROLLBACK').catch(() => {})
  }
}

async function fill(database: pg.Client, archive: Pack, options: Options): Promise<Manifest> {
  const head = await readHead(database, options)
  const manifest: Manifest = { head, tables: [], files: [] }
  const add = (name: string, content: Buffer, rows: number) => {
    manifest.files.push({ name, rows, sha256: createHash('sha256').update(content).digest('hex') })
    return addEntry(archive, head, name, content)
  }
  await add(HEAD_FILE, asJson(head), 0)
  const tables = await readTables(database)
  const all = await countRows(database, tables)
  let done = 0
  for (const table of tables) {
    let part = 0
    let rows = 0
    for await (const { content, count } of partsOf(database, table)) {
      part += 1
      rows += count
      done += count
      await add(partName(table.table, part), content, count)
      options.onProgress?.(done, all)
    }
    manifest.tables.push({ table: table.table, columns: [...table.columns], rows })
  }
  await addEntry(archive, head, MANIFEST_FILE, asJson(manifest))
  archive.finalize()
  return manifest
}

const asJson = (value: unknown): Buffer => Buffer.from(`${JSON.stringify(value, null, 1)}\n`)

function addEntry(archive: Pack, { takenAt }: Head, name: string, content: Buffer): Promise<void> {
  return new Promise((resolve, reject) => {
    archive.once('error', reject)
    const entry = archive.entry({ name, mode: 0o600, mtime: new Date(takenAt) }, content, (error) => {
      archive.off('error', reject)
      if (error) reject(error)
      else resolve()
    })
    entry.on('error', reject)
  })
}

async function countRows(database: pg.Client, tables: readonly ArchivedTable[]): Promise<number> {
  const counts = tables.map(({ table }) => `(SELECT count(*) FROM ${quoted(table)})`).join(' + ')
  const { rows } = await database.query<{ all: string }>(`SELECT ${counts} AS all`)
  return Number(rows[0]!.all)
}

/** The rows of a table, a JSON object a line as PostgreSQL writes it, in parts of bounded size. */
async function* partsOf(database: pg.Client, { table, columns, json, key }: ArchivedTable) {
  const order = key.length > 0 ? ` ORDER BY ${quotedList(key)}` : ''
  await database.query(
    `DECLARE archived NO SCROLL CURSOR FOR SELECT ${lineOf(json)} AS line
     FROM (SELECT ${quotedList(columns)} FROM ${quoted(table)}${order}) r`,
  )
  let lines: Buffer[] = []
  let bytes = 0
  for (;;) {
    const { rows } = await database.query<{ line: string }>(`FETCH ${ROWS_A_FETCH} FROM archived`)
    for (const { line } of rows) {
      const content = Buffer.from(`${line}\n`)
      lines.push(content)
      bytes += content.length
      if (bytes < PART_BYTES) continue
      yield { content: Buffer.concat(lines), count: lines.length }
      lines = []
      bytes = 0
    }
    if (rows.length < ROWS_A_FETCH) break
  }
  if (lines.length > 0) yield { content: Buffer.concat(lines), count: lines.length }
  await database.query('CLOSE archived')
}

/**
 * A row as text. JSON has one null, a column of JSON has two: nothing, and the value null; columns that hold the value are
 * named in the row.
 */
function lineOf(json: readonly string[]): string {
  if (json.length === 0) return 'row_to_json(r)::text'
  const isNull = (name: string) => `r.${quoted(name)} = 'null'::jsonb`
  const names = json.map((name) => `CASE WHEN ${isNull(name)} THEN '${name}' END`).join(', ')
  return `CASE WHEN ${json.map(isNull).join(' OR ')} THEN left(row_to_json(r)::text, -1) || ',"${JSON_NULLS}":'
    || array_to_json(array_remove(ARRAY[${names}], NULL))::text || '}' ELSE row_to_json(r)::text END`
}
