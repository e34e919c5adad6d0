import type { FileRow } from '../domain/import/file-row.ts'
import { itemsOfJson } from '../domain/import/items-of-json.ts'
import { LONGEST_ROW } from './limits.ts'
import { type OpenedTable, openTable } from './open-table.ts'
import type { Asked, Part } from './reading-messages.ts'
import { rowTooLong } from './refusals.ts'

const TOGETHER = 1_000

/** Reads a file part by part. */
export async function* readParts({ path, mostBytes, sheet }: Asked): AsyncGenerator<Part> {
  const file = await openTable(path, mostBytes, sheet)
  try {
    if (file.format === 'json') yield* partsOfJson(file.content)
    else yield* partsOfTable(file)
  } finally {
    file.close()
  }
}

async function* partsOfTable(table: OpenedTable): AsyncGenerator<Part> {
  const { format, sheets, sheet } = table
  yield { table: { format, sheets, sheet } }
  let rows: FileRow[] = []
  for await (const row of table.rows) {
    rows.push(row)
    if (rows.length < TOGETHER) continue
    yield { rows }
    rows = []
  }
  if (rows.length > 0) yield { rows }
  yield { merged: table.merged }
}

function* partsOfJson(content: unknown): Generator<Part> {
  const found = itemsOfJson(content)
  yield { json: found && { kind: found.kind, count: found.items.length } }
  if (!found) return
  for (let at = 0; at < found.items.length; at += TOGETHER) {
    const items = found.items.slice(at, at + TOGETHER)
    const long = items.findIndex((item) => JSON.stringify(item).length > LONGEST_ROW)
    if (long >= 0) throw rowTooLong(`Entry ${at + long + 1}`)
    yield { items }
  }
}
