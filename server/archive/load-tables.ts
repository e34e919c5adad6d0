import type pg from 'pg'
import { StartProblem } from '../config/start-problem.ts'
import { JSON_NULLS, type Manifest, tableOfPart } from './format.ts'
import { readEntries } from './read-entries.ts'
import { quoted, quotedList, readTables } from './tables.ts'

/**
 * Writes every row of an archive as it is, into the schema it was taken from. Triggers do not run, since what they would
 * do is in the rows already; foreign keys are taken off and put on again, which checks them all.
 */
export async function loadTables(
  database: pg.Client,
  file: string,
  manifest: Manifest,
  onProgress?: (done: number, all: number) => void,
): Promise<void> {
  const json = await requireSameTables(database, file, manifest)
  const keys = await takeOffForeignKeys(database)
  for (const { table } of manifest.tables) await database.query(`ALTER TABLE ${quoted(table)} DISABLE TRIGGER USER`)
  for (const { table } of manifest.tables) {
    // Rows that the migrations have put there are in the archive, too.
    const { rows } = await database.query(`SELECT 1 FROM ${quoted(table)} LIMIT 1`)
    if (rows.length > 0) await database.query(`DELETE FROM ${quoted(table)}`)
  }
  const all = manifest.tables.reduce((sum, { rows }) => sum + rows, 0)
  let done = 0
  for await (const { name, content } of readEntries(file)) {
    const table = tableOfPart(name)
    if (table === null) continue
    done += await insertLines(
      database,
      manifest.tables.find((each) => each.table === table)!,
      json.get(table)!,
      content,
    )
    onProgress?.(done, all)
  }
  await database.query('SET CONSTRAINTS ALL IMMEDIATE')
  for (const { table } of manifest.tables) await database.query(`ALTER TABLE ${quoted(table)} ENABLE TRIGGER USER`)
  for (const { table, name, definition } of keys) {
    await database.query(`ALTER TABLE ${table} ADD CONSTRAINT ${quoted(name)} ${definition}`)
  }
  await continueNumbers(database)
}

/** Out: by table the columns that hold JSON. */
async function requireSameTables(
  database: pg.Client,
  file: string,
  { tables }: Manifest,
): Promise<Map<string, readonly string[]>> {
  const found = await readTables(database)
  const ours = new Map(found.map(({ table, columns }) => [table, columns]))
  for (const { table, columns } of tables) {
    const known = ours.get(table)
    if (known !== undefined && [...known].sort().join() === [...columns].sort().join()) continue
    throw new StartProblem(
      `${file} was tampered with: its table ${table} is not one that its migrations make. Nothing was changed.`,
    )
  }
  return new Map(found.map(({ table, json }) => [table, json]))
}

interface ForeignKey {
  readonly table: string
  readonly name: string
  readonly definition: string
}

async function takeOffForeignKeys(database: pg.Client): Promise<ForeignKey[]> {
  const { rows } = await database.query<ForeignKey>(
    `SELECT conrelid::regclass::text AS table, conname AS name, pg_get_constraintdef(oid) AS definition
     FROM pg_constraint WHERE contype = 'f' AND connamespace = current_schema()::regnamespace ORDER BY 1, 2`,
  )
  for (const { table, name } of rows) await database.query(`ALTER TABLE ${table} DROP CONSTRAINT ${quoted(name)}`)
  return rows
}

const ROWS_A_STATEMENT = 1000

async function insertLines(
  database: pg.Client,
  { table, columns }: Manifest['tables'][number],
  json: readonly string[],
  content: Buffer,
): Promise<number> {
  const lines = content.toString().split('\n')
  lines.pop()
  const names = quotedList(columns)
  const values = columns.map((name) =>
    json.includes(name)
      ? `CASE WHEN (line -> '${JSON_NULLS}')::jsonb ? '${name}' THEN 'null'::jsonb ELSE r.${quoted(name)} END`
      : `r.${quoted(name)}`,
  )
  for (let from = 0; from < lines.length; from += ROWS_A_STATEMENT) {
    await database.query(
      `INSERT INTO ${quoted(table)} (${names}) OVERRIDING SYSTEM VALUE
       SELECT ${values.join(', ')} FROM json_array_elements($1::json) AS line,
         LATERAL json_populate_record(NULL::${quoted(table)}, line) AS r`,
      [`[${lines.slice(from, from + ROWS_A_STATEMENT).join(',')}]`],
    )
  }
  return lines.length
}

/** New rows are numbered after those that were loaded. */
async function continueNumbers(database: pg.Client): Promise<void> {
  const { rows } = await database.query<{ table: string; column: string; sequence: string }>(
    `SELECT c.relname AS table, a.attname AS column, pg_get_serial_sequence(quote_ident(c.relname), a.attname) AS sequence
     FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
     WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind = 'r'
       AND pg_get_serial_sequence(quote_ident(c.relname), a.attname) IS NOT NULL`,
  )
  for (const { table, column, sequence } of rows) {
    await database.query(
      `SELECT setval($1, COALESCE((SELECT max(${quoted(column)}) FROM ${quoted(table)}), 0) + 1, false)`,
      [sequence],
    )
  }
}
