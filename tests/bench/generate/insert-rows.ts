import type pg from 'pg'

/** As JSON they must fit into one value. */
const TOGETHER = 20_000

/**
 * Inserts rows, many in one statement. In: the columns with their SQL types, and rows by column name; JSON and arrays as plain
 * values, dates and instants as text.
 */
export async function insertRows<Column extends string>(
  client: pg.Client,
  table: string,
  columns: Readonly<Record<Column, string>>,
  rows: readonly Readonly<Record<Column, unknown>>[],
): Promise<void> {
  const names = Object.keys(columns).map((name) => `"${name}"`)
  const typed = Object.entries(columns).map(([name, type]) => `"${name}" ${type}`)
  const statement = `INSERT INTO ${table} (${names}) SELECT ${names} FROM json_to_recordset($1::json) AS x(${typed})`
  for (let at = 0; at < rows.length; at += TOGETHER) {
    await client.query(statement, [JSON.stringify(rows.slice(at, at + TOGETHER))])
  }
}
