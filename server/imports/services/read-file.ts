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
import { aboutItem } from './about-item.ts'
import { columnsOf } from './columns-of.ts'
import { findVersions } from './find-named.ts'
import type { Given, Progress } from './run.ts'

/** Reads the staged rows of a file as things of its kind, by its columns, each with all that cannot be read of it. */
export async function readFile(
  tx: Transaction,
  catalogue: Catalogue,
  job: StoredImport,
  progress: Progress,
): Promise<Given<never>[]> {
  const titles = new Map(columnsOf(job.kind, catalogue).map(({ key, title }) => [key, title]))
  const titleOf = (field: string) => titles.get(field) ?? inWords(field)
  const items = await itemsOf(tx, catalogue, job, progress)
  return items.map(({ rows, value, problems }) => {
    const known = new Set(problems.map(({ key }) => key))
    const parsed = parseImportItem(job.kind, value, titleOf, known)
    const read = 'item' in parsed ? { item: parsed.item, wrong: [], unread: [] } : { ...parsed, item: parsed.part }
    return {
      rows,
      about: aboutItem(job.kind, read.item, rows),
      item: read.item as never,
      faults: [...new Set([...problems.map(({ detail }) => detail), ...read.wrong])],
      unread: new Set([...known, ...read.unread]),
    }
  })
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
