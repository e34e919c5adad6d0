import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { Import, ImportPlan, ImportRow, RowOutcome } from '../../contract/imports/imports.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, invalid } from '../../errors.ts'
import { listOutcomes } from '../db/import-rows.db.ts'
import { askToCancel, beginWork, deleteImport, listImports, type StoredImport } from '../db/imports.db.ts'
import { columnsOf } from './columns-of.ts'
import type { ImportJobs } from './import-jobs.ts'
import { requireImport } from './require-import.ts'
import { suggestColumns } from './suggest-columns.ts'
import { checkFile, storeFile } from './work-on-import.ts'

/** The files an account has sent, the latest first. */
export async function findImports(
  context: Context,
  actor: Actor,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: Import[]; next: string | null }> {
  requireAction(actor, 'manage-people')
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { createdAt: String(key[0]), id: String(key[1]) }
  return toPage(
    await listImports(context.db, actor.accountId, { limit: query.limit + 1, after }),
    query.limit,
    ({ createdAt, id }) => [createdAt, id],
    toImport,
  )
}

/** A file and how far it has come. */
export const getImport = async (context: Context, actor: Actor, id: string): Promise<Import> =>
  toImport(await requireImport(context, actor, id))

const toImport = ({
  labels: _labels,
  mapping: _mapping,
  dates: _dates,
  answers: _answers,
  ...job
}: StoredImport): Import => job

/**
 * Begins to check a file: what its columns are taken for, how its dates are read. A date that may mean several days is
 * asked about and never guessed, so a question without an answer is refused.
 */
export async function startCheck(
  context: Context,
  actor: Actor,
  jobs: ImportJobs,
  id: string,
  plan: ImportPlan,
): Promise<Import> {
  const job = await requireImport(context, actor, id)
  const { kind } = plan
  // What was said about the file before still holds where nothing else is said.
  const dates = { ...job.dates, ...plan.dates }
  const answers = { ...(kind === job.kind ? job.answers : {}), ...plan.answers }
  const mapping = job.format === 'json' ? {} : await mappingOf(context, actor, job, { ...plan, dates })
  if (!(await beginWork(context.db, id, 'checking', { kind, mapping, dates, answers }))) throw busy(job)
  const planned = { ...job, kind, mapping, dates, answers }
  jobs.start(id, (progress) => checkFile(context, actor, planned, progress))
  return getImport(context, actor, id)
}

async function mappingOf(context: Context, actor: Actor, job: StoredImport, { kind, mapping, dates }: ImportPlan) {
  const { columns, questions } = await suggestColumns(context, actor, job.id, { kind, mapping })
  const taken = columns.flatMap(({ key, index }) => (index === null ? [] : [[key, index] as const]))
  const known = new Set(columnsOf(kind, await context.catalogue.current(context.db)).map(({ key }) => key))
  for (const [key, index] of Object.entries(mapping ?? {})) {
    if (!known.has(key))
      throw invalid('unknown-column', `/mapping/${key}`, `Things of this kind have no column "${key}".`)
    if (index >= job.labels.length)
      throw invalid('no-such-column', `/mapping/${key}`, `The file has ${job.labels.length} columns.`)
  }
  for (const { key, title, answers, examples } of questions) {
    if (dates[key] && answers.includes(dates[key])) continue
    const detail = `Dates under "${title}" may mean several days, like ${examples[0]}. Say how they are read: ${answers.join(' or ')}.`
    throw invalid('ambiguous-dates', `/dates/${key}`, detail)
  }
  return Object.fromEntries(taken)
}

/** Begins to store a file that was checked. Rows that are refused stay out only where that is said. */
export async function startStore(
  context: Context,
  actor: Actor,
  jobs: ImportJobs,
  id: string,
  leaveOut: boolean,
): Promise<Import> {
  const job = await requireImport(context, actor, id)
  if (job.state !== 'checked') throw busy(job)
  const refused = job.counts?.refused ?? 0
  if (refused > 0 && !leaveOut) {
    throw conflict(
      'rows-refused',
      `${refused} rows are refused. Mend them and send the file again, or say that they are to be left out.`,
    )
  }
  if (!(await beginWork(context.db, id, 'storing'))) throw busy(job)
  jobs.start(id, (progress) => storeFile(context, actor, job, progress))
  return getImport(context, actor, id)
}

function busy({ state }: StoredImport) {
  if (state === 'stored') return conflict('already-stored', 'This file is stored. To import more, send another.')
  if (state === 'checking' || state === 'storing')
    return conflict('under-way', 'The file is being worked on. Wait for it, or cancel it.')
  return conflict('not-checked', 'The file is not checked yet. Check it first, and look at what would become of it.')
}

/** Gives up what is being done with a file; nothing of it is stored then. */
export async function cancelImport(context: Context, actor: Actor, id: string): Promise<Import> {
  await requireImport(context, actor, id)
  if (!(await askToCancel(context.db, id)))
    throw conflict('nothing-to-cancel', 'Nothing is being done with this file just now.')
  return getImport(context, actor, id)
}

/** Removes a file and all that was read of it; what was stored of it stays. */
export async function removeImport(context: Context, actor: Actor, id: string): Promise<void> {
  const job = await requireImport(context, actor, id)
  if (job.state === 'checking' || job.state === 'storing') throw busy(job)
  await deleteImport(context.db, id)
}

/** What becomes of the rows of a checked file. */
export async function findImportRows(
  context: Context,
  actor: Actor,
  id: string,
  query: { limit: number; after?: string | undefined; outcome?: RowOutcome | undefined },
): Promise<{ items: ImportRow[]; next: string | null }> {
  await requireImport(context, actor, id)
  const key = fromCursor(query.after, ['number'])
  const page = { limit: query.limit + 1, after: key && Number(key[0]) }
  const rows = await listOutcomes(context.db, id, query.outcome, page)
  return toPage(
    rows,
    query.limit,
    ({ number }) => [number],
    (row) => row,
  )
}
