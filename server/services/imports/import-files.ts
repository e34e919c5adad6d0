import type { ImportKind } from '../../contract/imports.ts'
import { readRefused } from '../../db/import-rows.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Cell } from '../../domain/import/file-row.ts'
import { notFound } from '../../errors.ts'
import { type TableFormat, type WrittenFile, writeTable } from '../../files/write-table.ts'
import { requireAction } from '../access/require.ts'
import type { Context } from '../context.ts'
import { columnsOf } from './columns-of.ts'
import { requireImport } from './require-import.ts'

/** The label of the column that says why a row is refused; a file that is sent again may keep it. */
const WHY = 'Why it stays out'

/** The refused rows of a file as it was sent, each with why, to be mended and sent again. */
export async function getRefusedFile(context: Context, actor: Actor, id: string): Promise<WrittenFile> {
  const job = await requireImport(context, actor, id)
  const rows = await readRefused(context.db, id)
  if (rows.length === 0) throw notFound('file: no row is refused')
  const name = `${job.fileName.replace(/\.[^.]*$/, '').replace(/[^\p{L}\p{N} ._-]/gu, '')} - refused`
  if (job.format === 'json') {
    const items = rows.map(({ content, reasons }) => ({ item: content, reasons }))
    const content = {
      kind: job.kind,
      items: items.map(({ item }) => item),
      reasons: items.map(({ reasons }) => reasons),
    }
    return { name: `${name}.json`, type: 'application/json', content: Buffer.from(JSON.stringify(content, null, 2)) }
  }
  // A reason of an earlier round gives way to that of this one.
  const kept = job.labels.map((_, index) => index).filter((index) => job.labels[index] !== WHY)
  const table = [
    [...kept.map((index) => job.labels[index]!), WHY],
    ...rows.map(({ content, reasons }) => [
      ...kept.map((index) => (content as Cell[])[index] ?? ''),
      reasons.join(' '),
    ]),
  ]
  return writeTable(name, job.format, table)
}

/** A file with the labels of a kind and one row as an example. */
export async function getTemplate(
  context: Context,
  actor: Actor,
  kind: ImportKind,
  format: TableFormat,
): Promise<WrittenFile> {
  requireAction(actor, 'manage-people')
  const columns = columnsOf(kind, await context.catalogue.current(context.db))
  return writeTable(kind, format, [columns.map(({ title }) => title), columns.map(({ example }) => example)])
}
