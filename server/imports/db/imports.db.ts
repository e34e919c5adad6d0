import type { Import, ImportCounts, ImportKind, ImportQuestion, ImportState } from '../../contract/imports/imports.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { DateAnswer } from '../../domain/import/parse-day.ts'

/** A staged file with what only the server looks at. */
export interface StoredImport extends Import {
  readonly labels: readonly string[]
  readonly mapping: Readonly<Record<string, number>> | null
  readonly dates: Readonly<Record<string, DateAnswer>>
  readonly answers: Readonly<Record<string, string>>
}

const COLUMNS = Prisma.sql`
  j.id::text, to_char(j.created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "createdAt",
  to_char(j.expires_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "expiresAt", j.file_name AS "fileName",
  j.format, j.sheet_name AS "sheetName", j.sheet_names AS "sheetNames", j.labels, j.kind, j.mapping, j.dates, j.questions, j.answers, j.state,
  j.stage, j.done, j.total, j.counts, j.new_units AS "newUnits", j.problem,
  (SELECT count(*)::int FROM import_row r WHERE r.import_id = j.id) AS rows`

/** Where a server is at it and has not been heard of for so long, it was stopped. */
const SILENCE = Prisma.sql`interval '20 seconds'`

export async function insertImport(
  tx: Transaction,
  job: {
    accountId: string
    createdAt: Date
    expiresAt: Date
    fileName: string
    format: Import['format']
    sheetName: string | null
    sheetNames: readonly string[]
  },
): Promise<string> {
  const { id } = await tx.importJob.create({
    data: {
      ...job,
      sheetNames: [...job.sheetNames],
      labels: [],
      kind: 'roster',
      dates: {},
      state: 'read',
      stage: '',
      done: 0,
      total: 0,
      cancelAsked: false,
      newUnits: [],
    },
    select: { id: true },
  })
  return id
}

/** One of an account's files; null where it has none such. What a killed server was at is first said to have failed. */
export async function readImport(tx: Transaction, accountId: string, id: string): Promise<StoredImport | null> {
  await giveUpSilent(tx, id)
  const rows = await tx.$queryRaw<StoredImport[]>`
    SELECT ${COLUMNS} FROM import_job j WHERE j.id = ${id}::uuid AND j.account_id = ${accountId}::uuid`
  return rows[0] ?? null
}

/** A page of an account's files, the latest first. */
export async function listImports(
  tx: Transaction,
  accountId: string,
  page: { limit: number; after: { createdAt: string; id: string } | null },
): Promise<StoredImport[]> {
  const after = page.after
    ? Prisma.sql`AND (date_trunc('second', j.created_at), j.id) < (${page.after.createdAt}::timestamptz, ${page.after.id}::uuid)`
    : Prisma.empty
  return tx.$queryRaw<StoredImport[]>`
    SELECT ${COLUMNS} FROM import_job j WHERE j.account_id = ${accountId}::uuid ${after}
    ORDER BY date_trunc('second', j.created_at) DESC, j.id DESC LIMIT ${page.limit}`
}

async function giveUpSilent(tx: Transaction, id: string): Promise<void> {
  await tx.$executeRaw`
    UPDATE import_job SET state = 'failed', beat_at = NULL,
      problem = 'The server was stopped in the middle. Nothing was stored; check the file again.'
    WHERE id = ${id}::uuid AND state IN ('checking', 'storing') AND beat_at < now() - ${SILENCE}`
}

export async function saveHeader(
  tx: Transaction,
  id: string,
  header: { labels: readonly string[]; kind: ImportKind },
): Promise<void> {
  await tx.importJob.update({ where: { id }, data: { labels: [...header.labels], kind: header.kind } })
}

/**
 * Says that a server begins to check or store a file. Out: whether it may; not where one is at it already, or the file is
 * not in one of the states it can be begun from.
 */
export async function beginWork(
  tx: Transaction,
  id: string,
  state: Extract<ImportState, 'checking' | 'storing'>,
  plan?: {
    kind: ImportKind
    mapping: Readonly<Record<string, number>>
    dates: Readonly<Record<string, DateAnswer>>
    answers: Readonly<Record<string, string>>
  },
): Promise<boolean> {
  const from = state === 'checking' ? ['read', 'checked', 'failed', 'cancelled'] : ['checked']
  const planned = plan
    ? Prisma.sql`, kind = ${plan.kind}, mapping = ${JSON.stringify(plan.mapping)}::jsonb,
        dates = ${JSON.stringify(plan.dates)}::jsonb, answers = ${JSON.stringify(plan.answers)}::jsonb, questions = '[]', counts = NULL,
        new_units = '{}'`
    : Prisma.empty
  const changed = await tx.$executeRaw`
    UPDATE import_job SET state = ${state}, stage = 'begin', done = 0, total = 0, beat_at = now(), cancel_asked = false,
      problem = NULL ${planned}
    WHERE id = ${id}::uuid AND state = ANY(${from})`
  return changed > 0
}

/** Shows how far the work has come, and that it goes on. Out: whether it is to be given up. */
export async function beat(
  tx: Transaction,
  id: string,
  progress: { stage: string; done: number; total: number },
): Promise<boolean> {
  const rows = await tx.$queryRaw<{ asked: boolean }[]>`
    UPDATE import_job SET stage = ${progress.stage}, done = ${progress.done}, total = ${progress.total}, beat_at = now()
    WHERE id = ${id}::uuid AND state IN ('checking', 'storing') RETURNING cancel_asked AS asked`
  return rows[0]?.asked ?? true
}

/** Asks whoever is at it to give it up. Out: whether somebody is. */
export async function askToCancel(tx: Transaction, id: string): Promise<boolean> {
  const asked = await tx.$executeRaw`
    UPDATE import_job SET cancel_asked = true WHERE id = ${id}::uuid AND state IN ('checking', 'storing')`
  return asked > 0
}

/** Says how the work ended. */
export async function endWork(
  tx: Transaction,
  id: string,
  end: {
    state: ImportState
    problem?: string | null
    counts?: ImportCounts
    newUnits?: readonly string[]
    questions?: readonly ImportQuestion[]
  },
): Promise<void> {
  const { state, problem = null, counts, newUnits, questions } = end
  await tx.importJob.update({
    where: { id },
    data: {
      state,
      problem,
      beatAt: null,
      stage: '',
      ...(counts && { counts }),
      ...(questions && { questions: questions.map((question) => ({ ...question })) }),
      ...(newUnits && { newUnits: [...newUnits] }),
    },
  })
}

export async function deleteImport(tx: Transaction, id: string): Promise<void> {
  await tx.importJob.delete({ where: { id } })
}

/** Removes the files whose time is over, with all that was read of them. */
export async function deleteExpiredImports(tx: Transaction, now: Date): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM import_job WHERE expires_at < ${now} AND (beat_at IS NULL OR beat_at < now() - ${SILENCE})`
}
