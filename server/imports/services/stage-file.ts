import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { Import, ImportKind } from '../../contract/imports/imports.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type FileRow, isBlankRow } from '../../domain/import/file-row.ts'
import { findHeader } from '../../domain/import/find-header.ts'
import { itemsOfJson } from '../../domain/import/items-of-json.ts'
import { type OpenedTable, openTable } from '../../files/open-table.ts'
import { receiveFile } from '../../files/receive-file.ts'
import { notReadable } from '../../files/sniff-format.ts'
import { deleteImportRows, insertImportRows, type StagedRow } from '../db/import-rows.db.ts'
import { deleteExpiredImports, deleteImport, insertImport, readImport, saveHeader } from '../db/imports.db.ts'
import { columnsOfKinds } from './columns-of.ts'
import { orDiskFull } from './or-disk-full.ts'

const DAY_MS = 86_400_000
const MOST_ROWS = 200_000
const TOGETHER = 1_000
/** Titles and header stand among the first rows. */
const FIRST_ROWS = 40

/**
 * Reads a file that somebody of the office sent, and keeps its rows for a day so that it can be looked at before anything
 * is stored. In: its name, for words; the sheet of a workbook to read (left out: the first that has rows); its bytes.
 */
export async function stageFile(
  context: Context,
  actor: Actor,
  { fileName, sheet }: { fileName: string; sheet?: string | undefined },
  source: AsyncIterable<Buffer>,
): Promise<Import> {
  requireAction(actor, 'manage-people')
  const now = context.clock()
  await deleteExpiredImports(context.db, now)
  const mostBytes = context.importMegabytes * 1_000_000
  const id = await receiveFile(source, mostBytes, async (path) => {
    const file = await openTable(path, mostBytes, sheet)
    try {
      const { format, sheet: sheetName, sheets } = file.format === 'json' ? { ...file, sheet: null, sheets: [] } : file
      const job = { accountId: actor.accountId, createdAt: now, expiresAt: new Date(now.getTime() + DAY_MS), fileName }
      const made = await insertImport(context.db, { ...job, format, sheetName, sheetNames: sheets })
      try {
        await orDiskFull(() =>
          file.format === 'json' ? stageJson(context, made, file.content) : stageTable(context, made, file),
        )
      } catch (error) {
        await deleteImport(context.db, made)
        throw error
      }
      return made
    } finally {
      file.close()
    }
  })
  return (await readImport(context.db, actor.accountId, id))!
}

async function stageTable(context: Context, id: string, table: OpenedTable): Promise<void> {
  const first: FileRow[] = []
  let waiting: StagedRow[] = []
  let count = 0
  for await (const row of table.rows) {
    if (first.length < FIRST_ROWS) first.push(row)
    if (isBlankRow(row) && !row.problems) continue
    count += 1
    if (count > MOST_ROWS)
      throw notReadable('too-many-rows', `The table has more than ${MOST_ROWS} rows. Send it in parts.`)
    waiting.push({ number: row.number, content: row.cells, problems: row.problems ?? [] })
    if (waiting.length < TOGETHER) continue
    await insertImportRows(context.db, id, waiting)
    waiting = []
  }
  await insertImportRows(context.db, id, waiting)
  const header = findHeader(first, columnsOfKinds(await context.catalogue.current(context.db)), table.merged)
  if (!header) {
    throw notReadable(
      'no-header',
      'No row of the file has labels that are known. Put labels over the columns; the templates show which.',
    )
  }
  await saveHeader(context.db, id, header)
  const last = first[header.at]!.number
  await deleteImportRows(context.db, id, last)
  if (count <= first.filter((row) => !isBlankRow(row) && row.number <= last).length) {
    throw notReadable('header-only', 'The file has a header and no rows under it.')
  }
}

async function stageJson(context: Context, id: string, content: unknown): Promise<void> {
  const found = itemsOfJson(content)
  if (!found)
    throw notReadable(
      'unknown-layout',
      'The JSON has no layout that is known: a list of things of one kind, as the API takes them.',
    )
  const { kind, items } = found satisfies { kind: ImportKind }
  if (items.length === 0) throw notReadable('empty-file', 'The list in the file is empty.')
  if (items.length > MOST_ROWS)
    throw notReadable('too-many-rows', `The list has more than ${MOST_ROWS} things. Send it in parts.`)
  for (let at = 0; at < items.length; at += TOGETHER) {
    const part = items
      .slice(at, at + TOGETHER)
      .map((item, index) => ({ number: at + index + 1, content: item, problems: [] }))
    await insertImportRows(context.db, id, part)
  }
  await saveHeader(context.db, id, { labels: [], kind })
}
