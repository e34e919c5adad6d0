import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { Import, ImportKind } from '../../contract/imports/imports.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type FileRow, isBlankRow } from '../../domain/import/file-row.ts'
import { findHeader } from '../../domain/import/find-header.ts'
import { readApart } from '../../files/read-apart.ts'
import type { MergedCell } from '../../files/read-xlsx.ts'
import type { Part } from '../../files/reading-messages.ts'
import { receiveFile } from '../../files/receive-file.ts'
import { notReadable } from '../../files/sniff-format.ts'
import { deleteImportRows, insertImportRows } from '../db/import-rows.db.ts'
import { deleteExpiredImports, deleteImport, insertImport, readImport, saveHeader } from '../db/imports.db.ts'
import { columnsOfKinds } from './columns-of.ts'
import { orDiskFull } from './or-disk-full.ts'

const DAY_MS = 86_400_000
const MOST_ROWS = 200_000
/** Titles and header stand among the first rows. */
const FIRST_ROWS = 40

/**
 * Reads a file that somebody of the office sent, and keeps its rows for a day so that it can be looked at before anything
 * is stored. In: its name, for words; the sheet of a workbook to read (left out: the first that has rows); its bytes; a
 * signal that ends it wherever it is, as when whoever sent it is gone.
 */
export async function stageFile(
  context: Context,
  actor: Actor,
  { fileName, sheet, signal }: { fileName: string; sheet?: string | undefined; signal: AbortSignal },
  source: AsyncIterable<Buffer>,
): Promise<Import> {
  requireAction(actor, 'manage-people')
  const now = context.clock()
  await deleteExpiredImports(context.db, now)
  const mostBytes = context.importMegabytes * 1_000_000
  const id = await receiveFile(source, { mostBytes, signal }, async (path) => {
    const file = readApart({ path, mostBytes, sheet }, signal)
    const parts = file.parts
    try {
      const { value: first } = (await parts.next()) as IteratorYieldResult<Part>
      const job = { accountId: actor.accountId, createdAt: now, expiresAt: new Date(now.getTime() + DAY_MS), fileName }
      const made = await insertImport(context.db, { ...job, ...headOf(first) })
      try {
        await orDiskFull(() =>
          'json' in first ? stageJson(context, made, first.json, parts) : stageTable(context, made, parts),
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

type Parts = AsyncIterable<Part>

function headOf(first: Part) {
  if (!('table' in first)) return { format: 'json' as const, sheetName: null, sheetNames: [] }
  const { format, sheet, sheets } = first.table
  return { format, sheetName: sheet, sheetNames: [...sheets] }
}

async function stageTable(context: Context, id: string, parts: Parts): Promise<void> {
  const first: FileRow[] = []
  let merged: readonly MergedCell[] = []
  let count = 0
  for await (const value of parts) {
    if ('merged' in value) merged = value.merged
    if (!('rows' in value)) continue
    first.push(...value.rows.slice(0, FIRST_ROWS - first.length))
    const filled = value.rows.filter((row) => !isBlankRow(row) || row.problems)
    count += filled.length
    if (count > MOST_ROWS)
      throw notReadable('too-many-rows', `The table has more than ${MOST_ROWS} rows. Send it in parts.`)
    await insertImportRows(
      context.db,
      id,
      filled.map(({ number, cells, problems = [] }) => ({ number, content: cells, problems })),
    )
  }
  const header = findHeader(first, columnsOfKinds(await context.catalogue.current(context.db)), merged)
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

async function stageJson(
  context: Context,
  id: string,
  found: { kind: ImportKind; count: number } | null,
  parts: Parts,
): Promise<void> {
  if (!found)
    throw notReadable(
      'unknown-layout',
      'The JSON has no layout that is known: a list of things of one kind, as the API takes them.',
    )
  if (found.count === 0) throw notReadable('empty-file', 'The list in the file is empty.')
  if (found.count > MOST_ROWS)
    throw notReadable('too-many-rows', `The list has more than ${MOST_ROWS} things. Send it in parts.`)
  let before = 0
  for await (const value of parts) {
    if (!('items' in value)) continue
    const rows = value.items.map((content, at) => ({ number: before + at + 1, content, problems: [] }))
    await insertImportRows(context.db, id, rows)
    before += rows.length
  }
  await saveHeader(context.db, id, { labels: [], kind: found.kind })
}
