import { createHash } from 'node:crypto'
import type { Context } from '../../context/context.ts'
import type { ImportColumns, ImportKind } from '../../contract/imports/imports.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type DateQuestion, dateQuestions } from '../../domain/import/date-questions.ts'
import { type Cell, cellText, type FileRow } from '../../domain/import/file-row.ts'
import { type Mapping, matchColumns } from '../../domain/import/match-columns.ts'
import { normalizeLabel } from '../../domain/import/normalize-label.ts'
import { readFirstRows, readImportRows, readRememberedMapping } from '../db/import-rows.db.ts'
import type { StoredImport } from '../db/imports.db.ts'
import { columnsOf } from './columns-of.ts'
import { requireImport } from './require-import.ts'

const SAMPLES = 4
const ROWS_FOR_SAMPLES = 30
/** Below this a label is only like one that is known. */
const KNOWN = 0.95

/**
 * What the columns of a file may be taken for, as things of a kind: by its labels, or as last time a file had the same;
 * and what has to be asked about its dates. `mapping`: as somebody has chosen.
 */
export async function suggestColumns(
  context: Context,
  actor: Actor,
  id: string,
  { kind, mapping: chosen }: { kind: ImportKind; mapping?: Mapping | undefined },
): Promise<ImportColumns> {
  const job = await requireImport(context, actor, id)
  if (job.format === 'json') return { kind, columns: [], file: [], questions: [] }
  const columns = columnsOf(kind, await context.catalogue.current(context.db))
  const matches = matchColumns(job.labels, columns)
  const remembered = await readRememberedMapping(context.db, kind, labelsKey(job.labels))
  const suggested: Mapping = remembered ?? Object.fromEntries(matches.map(({ key, index }) => [key, index]))
  const mapping = chosen ?? suggested
  const first = await readFirstRows(context.db, id, ROWS_FOR_SAMPLES)
  const questions = await questionsOf(context, job, columns, mapping)
  const taken = new Set(Object.values(mapping))
  // Where a label is left that nothing is taken for, it may be a measure's.
  const hasMore = job.labels.some((label, index) => label !== '' && !taken.has(index))
  const how = (key: string, index: number): ImportColumns['columns'][number]['how'] => {
    if (chosen && chosen[key] !== suggested[key]) return 'chosen'
    if (remembered) return 'remembered'
    const match = matches.find((one) => one.key === key && one.index === index)
    return match ? (match.likeness >= KNOWN ? 'known' : 'alike') : 'chosen'
  }
  return {
    kind,
    columns: columns
      .filter(({ key }) => !key.startsWith('measure/') || key in mapping || hasMore)
      .map(({ key, title, hint, needed }) => {
        const index = mapping[key] ?? null
        return { key, title, hint, needed, index, how: index === null ? null : how(key, index) }
      }),
    file: job.labels.map((label, index) => ({ label, samples: samplesOf(first, index) })),
    questions: questions.map((question) => ({
      ...question,
      answers: [...question.answers],
      examples: [...question.examples],
      title: columns.find(({ key }) => key === question.key)!.title,
      answer: job.dates[question.key] ?? null,
    })),
  }
}

async function questionsOf(
  context: Context,
  job: StoredImport,
  columns: ReturnType<typeof columnsOf>,
  mapping: Mapping,
): Promise<DateQuestion[]> {
  const rows: FileRow[] = []
  for await (const part of readImportRows(context.db, job.id)) {
    for (const { number, content } of part) rows.push({ number, cells: content as Cell[] })
  }
  return dateQuestions(rows, columns, mapping)
}

function samplesOf(rows: readonly { content: unknown }[], index: number): string[] {
  const texts = rows.map(({ content }) => cellText((content as Cell[])[index])).filter((text) => text !== '')
  return [...new Set(texts)].slice(0, SAMPLES)
}

/** What files with the same labels have in common. */
export const labelsKey = (labels: readonly string[]): string =>
  createHash('sha256')
    .update(JSON.stringify(labels.map(normalizeLabel)))
    .digest('hex')
