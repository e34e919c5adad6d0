import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { ImportKind } from '../../contract/imports/imports.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Cell } from '../../domain/import/file-row.ts'
import { printRows } from '../../domain/import/print-rows.ts'
import { invalid, notFound } from '../../errors.ts'
import { type TableFormat, type WrittenFile, writeTable } from '../../files/write-table.ts'
import { requireVersion } from '../../standards/services/enter-publication.ts'
import { readRefused } from '../db/import-rows.db.ts'
import { columnsOf } from './columns-of.ts'
import { exportItems } from './export-items.ts'
import { findVersions } from './find-named.ts'
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

/**
 * A file with the labels of a kind: to be filled in, with one row as an example; or `filled` with all that is here, of
 * standards with one `version` alone, which changes nothing when it is taken in again.
 */
export async function getTemplate(
  context: Context,
  actor: Actor,
  kind: ImportKind,
  { format, filled, version }: { format: TableFormat | 'json'; filled: boolean; version?: string | undefined },
): Promise<WrittenFile> {
  requireAction(actor, 'manage-people')
  if (version !== undefined && kind !== 'standards') {
    throw invalid(
      'not-a-standard',
      '/version',
      'Only standards have versions: ask for the kind standards, or leave version out.',
    )
  }
  const catalogue = await context.catalogue.current(context.db)
  const one = version === undefined ? null : requireVersion(catalogue.standards, version).own
  const items = one ? [{ ...one.definition }] : filled ? await exportItems(context.db, catalogue, kind) : null
  const name = one ? `${one.code}-version-${one.version}` : kind
  if (format === 'json') {
    const content = Buffer.from(JSON.stringify({ kind, items: (items ?? []).map(withoutNulls) }, null, 2))
    return { name: `${name}.json`, type: 'application/json', content }
  }
  const columns = columnsOf(kind, catalogue)
  const standardOf = (name: unknown) => findVersions(catalogue, String(name)).at(-1)?.definition ?? null
  const rows = items?.flatMap((item) => printRows(kind, item, columns, standardOf(item.standard)))
  return writeTable(name, format, [
    columns.map(({ title }) => title),
    ...(rows ?? [columns.map(({ example }) => example)]),
  ])
}

/** What is not said is left out; the schemas take it for nothing. */
const withoutNulls = (item: Readonly<Record<string, unknown>>) =>
  Object.fromEntries(Object.entries(item).filter(([, value]) => value !== null))
