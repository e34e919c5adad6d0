import type { ImportKind } from '../../contract/imports/imports.ts'
import { parseImportItem } from '../../contract/imports/parse-import-item.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import type { Cell } from '../../domain/import/file-row.ts'
import type { Item, ReadRow } from '../../domain/import/item.ts'
import { readFields } from '../../domain/import/read-fields.ts'
import { toItems } from '../../domain/import/to-item.ts'
import { readImportRows } from '../db/import-rows.db.ts'
import type { StoredImport } from '../db/imports.db.ts'
import { columnsOf } from './columns-of.ts'
import { findVersions } from './find-named.ts'
import type { Given, Progress, Verdict } from './run.ts'

/** What a file says, as far as it can be read, and why some rows cannot. */
export interface ReadFile {
  readonly given: readonly Given<never>[]
  readonly refused: ReadonlyMap<number, Verdict>
}

/** Reads the staged rows of a file as things of its kind, by its columns. */
export async function readFile(
  tx: Transaction,
  catalogue: Catalogue,
  job: StoredImport,
  progress: Progress,
): Promise<ReadFile> {
  const given: Given<never>[] = []
  const refused = new Map<number, Verdict>()
  const about = (rows: readonly number[]) => (rows.length === 1 ? `Row ${rows[0]}` : `Rows ${rows[0]}–${rows.at(-1)}`)
  const titles = new Map(columnsOf(job.kind, catalogue).map(({ key, title }) => [key, title]))
  const titleOf = (field: string) => titles.get(field) ?? inWords(field)
  for (const { rows, value, problems } of await itemsOf(tx, catalogue, job, progress)) {
    const parsed = parseImportItem(job.kind, value, titleOf, new Set(problems.map(({ key }) => key)))
    const wrong = [...problems.map(({ detail }) => detail), ...('wrong' in parsed ? parsed.wrong : [])]
    if ('item' in parsed && wrong.length === 0) given.push({ rows, item: parsed.item as never })
    else
      for (const row of rows) refused.set(row, { outcome: 'refused', about: about(rows), reasons: [...new Set(wrong)] })
  }
  return { given, refused }
}

/** "Max height cm" of `maxHeightCm`. */
function inWords(field: string): string {
  const words = field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
  return words.charAt(0).toUpperCase() + words.slice(1)
}

async function itemsOf(tx: Transaction, catalogue: Catalogue, job: StoredImport, progress: Progress): Promise<Item[]> {
  const isJson = job.format === 'json'
  const reading = { columns: columnsOf(job.kind, catalogue), mapping: job.mapping ?? {}, dates: job.dates }
  const items: Item[] = []
  const rows: ReadRow[] = []
  for await (const part of readImportRows(tx, job.id)) {
    for (const { number, content, problems } of part) {
      if (isJson) items.push({ rows: [number], value: content, problems: [] })
      else rows.push({ number, ...readFields({ number, cells: content as Cell[], problems }, reading) })
    }
    progress('reading', items.length + rows.length, job.rows)
  }
  if (isJson) return items
  return toItems(job.kind satisfies ImportKind, rows, (name) => {
    const definition = findVersions(catalogue, name).at(-1)?.definition
    return definition ?? null
  })
}
