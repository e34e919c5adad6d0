import fs from 'node:fs'
import path from 'node:path'
import { actorByName } from '../../accounts/services/actor-by-name.ts'
import type { Context } from '../../context/context.ts'
import type { DateAnswer, Import, ImportKind } from '../../contract/imports/imports.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { IMPORT_KINDS } from '../../domain/import/column.ts'
import { normalizeLabel } from '../../domain/import/normalize-label.ts'
import { AppError, invalid } from '../../errors.ts'
import { listOutcomes } from '../db/import-rows.db.ts'
import { deleteImport } from '../db/imports.db.ts'
import { getRefusedFile } from './import-files.ts'
import { importJobs } from './import-jobs.ts'
import { getImport, startCheck, startStore } from './imports.ts'
import { requireImport } from './require-import.ts'
import { stageFile } from './stage-file.ts'
import { suggestColumns } from './suggest-columns.ts'

export const KINDS_TO_NAME = IMPORT_KINDS.join(', ')

interface Options {
  readonly kind: string | undefined
  readonly sheet: string | undefined
  readonly as: string | undefined
  /** Labels and answers by column. */
  readonly map: Readonly<Record<string, string>>
  readonly dates: Readonly<Record<string, string>>
  readonly answers: Readonly<Record<string, string>>
  readonly dryRun: boolean
  readonly leaveOut: boolean
}

interface Showing {
  say(line: string): void
  progress(stage: string): (done: number, all: number) => void
}

/** So many refused rows are said; all are in the file beside it. */
const SHOWN = 20
const GLANCE_MS = 500

/**
 * Takes files in one after the other, as an account of the training office. Out: whether all of them were taken whole. A
 * file with refused rows is stored only where they may be left out, and those are written beside it.
 */
export async function importByCommand(
  context: Context,
  files: readonly string[],
  options: Options,
  showing: Showing,
): Promise<boolean> {
  const actor = await actorByName(context, options.as)
  let whole = true
  for (const file of files) {
    try {
      whole = (await importOne(context, actor, file, options, showing)) && whole
    } catch (error) {
      if (!(error instanceof AppError)) throw error
      showing.say(`${path.basename(file)}: ${error.message}`)
      whole = false
    }
  }
  return whole
}

async function importOne(
  context: Context,
  actor: Actor,
  file: string,
  options: Options,
  showing: Showing,
): Promise<boolean> {
  const fileName = path.basename(file)
  const { signal } = new AbortController() // Ctrl-C ends all of it.
  const sent = await stageFile(context, actor, { fileName, sheet: options.sheet, signal }, fs.createReadStream(file))
  try {
    const kind = kindNamed(options.kind) ?? sent.kind
    const jobs = importJobs(context, (error) =>
      showing.say(`Unexpected: ${error instanceof Error ? error.message : error}`),
    )
    const follow = async () => {
      const glance = setInterval(async () => {
        const { stage, done, total } = await getImport(context, actor, sent.id)
        if (stage !== '' && total > 0) showing.progress(`${fileName}, ${stage}`)(done, total)
      }, GLANCE_MS)
      await jobs.ended(sent.id).finally(() => clearInterval(glance))
      return getImport(context, actor, sent.id)
    }
    const mapping = await mappingOf(context, actor, sent, kind, options)
    await startCheck(context, actor, jobs, sent.id, {
      kind,
      mapping,
      dates: options.dates as Record<string, DateAnswer>,
      answers: options.answers,
    })
    const checked = await follow()
    if (checked.state !== 'checked') throw invalid('not-checked', '', checked.problem ?? 'It could not be checked.')
    await formatOutcome(context, checked, showing)
    const refused = checked.counts!.refused > 0
    if (refused) await writeRefused(context, actor, file, sent.id, showing)
    if (options.dryRun || (refused && !options.leaveOut)) {
      showing.say(
        options.dryRun
          ? 'A dry run: nothing was stored.'
          : 'Nothing was stored. Mend the refused rows, or use --leave-out-refused.',
      )
      return !refused
    }
    await startStore(context, actor, jobs, sent.id, options.leaveOut)
    const stored = await follow()
    if (stored.state !== 'stored') throw invalid('not-stored', '', stored.problem ?? 'It could not be stored.')
    showing.say(`${fileName} is stored.`)
    return !refused
  } finally {
    await deleteImport(context.db, sent.id)
  }
}

async function mappingOf(context: Context, actor: Actor, sent: Import, kind: ImportKind, { map }: Options) {
  const { labels } = await requireImport(context, actor, sent.id)
  const { columns } = await suggestColumns(context, actor, sent.id, { kind })
  const suggested = columns.flatMap(({ key, index }) => (index === null ? [] : [[key, index] as const]))
  const chosen = Object.entries(map).map(([key, label]) => {
    const index = labels.findIndex((one) => normalizeLabel(one) === normalizeLabel(label))
    if (index < 0)
      throw invalid(
        'no-such-label',
        '',
        `The file has no column "${label}". It has: ${labels.filter(Boolean).join(', ')}.`,
      )
    return [key, index] as const
  })
  return Object.fromEntries([...suggested, ...chosen])
}

async function formatOutcome(
  context: Context,
  { id, fileName, kind, counts, newUnits, questions }: Import,
  { say }: Showing,
): Promise<void> {
  const { added, changed, unchanged, held, refused } = counts!
  say(
    `${fileName} (${kind}): adds ${added}, changes ${changed}, ${unchanged} are there already, ${held} are held, ${refused} are refused.`,
  )
  for (const path of newUnits) say(`  adds the unit ${path}`)
  for (const { key, choices, answer } of questions) {
    if (answer === null) say(`  asks: --answer ${key}=…, one of ${choices.slice(0, SHOWN).join(', ')}`)
  }
  const rows = await listOutcomes(context.db, id, 'refused', { limit: SHOWN, after: null })
  for (const { number, reasons } of rows) say(`  row ${number}: ${reasons.join(' ')}`)
  if (refused > rows.length) say(`  and ${refused - rows.length} more`)
}

async function writeRefused(context: Context, actor: Actor, file: string, id: string, { say }: Showing): Promise<void> {
  const { name, content } = await getRefusedFile(context, actor, id)
  const target = path.join(path.dirname(file), name)
  fs.writeFileSync(target, content, { mode: 0o600 })
  say(`The refused rows are in ${target}, each with why.`)
}

function kindNamed(name: string | undefined): ImportKind | undefined {
  if (name === undefined) return undefined
  const kind = IMPORT_KINDS.find((one) => one === name.toLowerCase())
  if (!kind) throw invalid('unknown-kind', '', `There is no kind "${name}". It is one of ${KINDS_TO_NAME}.`)
  return kind
}
