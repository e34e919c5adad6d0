import type pg from 'pg'
import { LEFT_OUT } from './left-out.ts'

/** A table as the archive takes it: columns that are stored (generated ones follow by themselves), key to order by. */
export interface ArchivedTable {
  readonly table: string
  readonly columns: readonly string[]
  /** Those of them that hold JSON. */
  readonly json: readonly string[]
  readonly key: readonly string[]
}

/** The tables of the schema that belong into an archive, by name. */
export async function readTables(database: pg.ClientBase): Promise<ArchivedTable[]> {
  const { rows } = await database.query<ArchivedTable>(
    `SELECT c.relname AS table,
       (SELECT array_agg(a.attname::text ORDER BY a.attnum) FROM pg_attribute a
        WHERE a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '') AS columns,
       COALESCE((SELECT array_agg(a.attname::text ORDER BY a.attnum) FROM pg_attribute a
        WHERE a.attrelid = c.oid AND a.atttypid = 'jsonb'::regtype AND NOT a.attisdropped AND a.attgenerated = ''), '{}') AS json,
       COALESCE((SELECT array_agg(a.attname::text ORDER BY array_position(i.indkey::int2[], a.attnum))
        FROM pg_index i JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = ANY(i.indkey)
        WHERE i.indrelid = c.oid AND i.indisprimary), '{}') AS key
     FROM pg_class c WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind = 'r' AND c.relname <> ALL($1)
     ORDER BY c.relname COLLATE "C"`,
    [LEFT_OUT],
  )
  return rows
}

/** A name as SQL takes it. Ours have nothing but letters and underscores; it holds whatever they are. */
export const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`

export const quotedList = (names: readonly string[]): string => names.map(quoted).join(', ')
