import type pg from 'pg'

/**
 * Inserts rows in one statement. In: the columns with their SQL types, and rows by column name; JSON and arrays as plain
 * values, dates and instants as text.
 */
export async function insertRows<Column extends string>(
  client: pg.Client,
  table: string,
  columns: Readonly<Record<Column, string>>,
  rows: readonly Readonly<Record<Column, unknown>>[],
): Promise<void> {
  if (rows.length === 0) return
  const names = Object.keys(columns).map((name) => `"${name}"`)
  const typed = Object.entries(columns).map(([name, type]) => `"${name}" ${type}`)
  await client.query(
    `INSERT INTO ${table} (${names}) SELECT ${names} FROM json_to_recordset($1::json) AS x(${typed})`,
    [JSON.stringify(rows)],
  )
}
