import type { ImportRow, RowOutcome } from '../../contract/imports/imports.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { CellProblem } from '../../domain/import/file-row.ts'

/** A row as it was read from the file. */
export interface StagedRow {
  readonly number: number
  /** Cells of a table; of JSON the thing itself. */
  readonly content: unknown
  readonly problems: readonly CellProblem[]
}

export async function insertImportRows(tx: Transaction, importId: string, rows: readonly StagedRow[]): Promise<void> {
  if (rows.length === 0) return
  await tx.$executeRaw`
    INSERT INTO import_row (import_id, number, content, problems, about, reasons)
    SELECT ${importId}::uuid, number, content, problems, '', '[]'
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS x(number int, content jsonb, problems jsonb)`
}

/** Takes away the rows up to a number: titles and the header. */
export async function deleteImportRows(tx: Transaction, importId: string, upTo: number): Promise<void> {
  await tx.importRow.deleteMany({ where: { importId, number: { lte: upTo } } })
}

const PAGE = 5_000

/** All rows of a file in order, a few thousand at a time. */
export async function* readImportRows(tx: Transaction, importId: string): AsyncGenerator<StagedRow[]> {
  for (let after = -1; ; ) {
    const rows = await tx.$queryRaw<StagedRow[]>`
      SELECT number, content, problems FROM import_row WHERE import_id = ${importId}::uuid AND number > ${after}
      ORDER BY number LIMIT ${PAGE}`
    if (rows.length > 0) yield rows
    if (rows.length < PAGE) return
    after = rows.at(-1)!.number
  }
}

/** The first few rows. */
export async function readFirstRows(tx: Transaction, importId: string, limit: number): Promise<StagedRow[]> {
  return tx.$queryRaw<StagedRow[]>`
    SELECT number, content, problems FROM import_row WHERE import_id = ${importId}::uuid ORDER BY number LIMIT ${limit}`
}

/** Keeps what becomes of rows. */
export async function saveOutcomes(tx: Transaction, importId: string, rows: readonly ImportRow[]): Promise<void> {
  for (let at = 0; at < rows.length; at += PAGE) {
    await tx.$executeRaw`
      UPDATE import_row r SET outcome = x.outcome, about = x.about, reasons = x.reasons
      FROM jsonb_to_recordset(${JSON.stringify(rows.slice(at, at + PAGE))}::jsonb)
        AS x(number int, outcome text, about text, reasons jsonb)
      WHERE r.import_id = ${importId}::uuid AND r.number = x.number`
  }
}

/** What was said would become of the rows, in order. */
export async function readOutcomes(tx: Transaction, importId: string): Promise<ImportRow[]> {
  return tx.$queryRaw<ImportRow[]>`
    SELECT number, outcome, about, reasons FROM import_row
    WHERE import_id = ${importId}::uuid AND outcome IS NOT NULL ORDER BY number`
}

/** A page of what becomes of the rows. */
export async function listOutcomes(
  tx: Transaction,
  importId: string,
  outcome: RowOutcome | undefined,
  page: { limit: number; after: number | null },
): Promise<ImportRow[]> {
  const only = outcome ? Prisma.sql`AND outcome = ${outcome}` : Prisma.sql`AND outcome IS NOT NULL`
  return tx.$queryRaw<ImportRow[]>`
    SELECT number, outcome, about, reasons FROM import_row
    WHERE import_id = ${importId}::uuid ${only} AND number > ${page.after ?? -1}
    ORDER BY number LIMIT ${page.limit}`
}

/** The refused rows as they were read, with why. */
export async function readRefused(tx: Transaction, importId: string): Promise<(StagedRow & { reasons: string[] })[]> {
  return tx.$queryRaw<(StagedRow & { reasons: string[] })[]>`
    SELECT number, content, problems, reasons FROM import_row
    WHERE import_id = ${importId}::uuid AND outcome = 'refused' ORDER BY number`
}

export async function readRememberedMapping(
  tx: Transaction,
  kind: string,
  labels: string,
): Promise<Record<string, number> | null> {
  const found = await tx.importMapping.findUnique({ where: { kind_labels: { kind, labels } } })
  return (found?.mapping as Record<string, number> | undefined) ?? null
}

export async function rememberMapping(
  tx: Transaction,
  kind: string,
  labels: string,
  mapping: Readonly<Record<string, number>>,
  usedAt: Date,
): Promise<void> {
  const data = { mapping: { ...mapping }, usedAt }
  await tx.importMapping.upsert({
    where: { kind_labels: { kind, labels } },
    create: { kind, labels, ...data },
    update: data,
  })
}
