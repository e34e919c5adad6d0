import { requireAction } from '../../access/services/require.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { Comparison, Standard, StandardBody } from '../../contract/standards/standards.ts'
import { bumpRevision, readCatalogue, type StandardVersion } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { checkDefinition } from '../../domain/standards/check-definition.ts'
import { compareDefinitions } from '../../domain/standards/compare-definitions.ts'
import { definitionStamp } from '../../domain/standards/definition-stamp.ts'
import { AppError, conflict, invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import {
  deleteStandardVersion,
  hasSheets,
  insertStandardVersion,
  updateStandardVersion,
} from '../db/catalogue-writes.db.ts'
import { enterPublication, requireVersion } from './enter-publication.ts'
import { measureAfterMeasure } from './measure-after-measure.ts'

/** Stores a draft version of a standard. A definition that contradicts itself is invalid, a used version a conflict. */
export async function createStandard(context: Context, actor: Actor, body: StandardBody): Promise<{ id: string }> {
  requireAction(actor, 'manage-standards')
  const definition = soundDefinition(body)
  return recorded(context, actor, async (tx, note) => {
    await lockCatalogue(tx)
    const { standards } = await readCatalogue(tx)
    if (standards.get(body.code)?.some(({ version }) => version === body.version)) {
      throw conflict('version-used', `"${body.code}" has a version ${body.version} already; give the next number.`)
    }
    await noteNew(tx, note, { arms: definition.arms })
    const id = await insertStandardVersion(tx, definition)
    await bumpRevision(tx)
    const { code, version } = body
    note({ action: 'standard.drafted', subject: { kind: 'standard', id }, after: { code, version } })
    return { id }
  })
}

/** The definition with its calls, where it is sound; invalid where it contradicts itself. */
function soundDefinition(body: StandardBody): StandardBody {
  const definition = body.calls.length > 0 ? body : { ...body, calls: measureAfterMeasure(body) }
  const problems = checkDefinition(definition)
  if (problems[0]) throw new AppError('invalid', problems[0].rule, problems[0].detail, problems)
  return definition
}

/**
 * Publishes a version: it is frozen, sheets of it are judged again, and from its day on it is the one in force.
 * Publishing again changes nothing. Versions must begin in the order of their numbers.
 */
export async function publishStandard(context: Context, actor: Actor, id: string): Promise<Standard> {
  requireAction(actor, 'manage-standards')
  const { version } = await recorded(context, actor, (tx, note) => enterPublication(tx, context, id, note))
  return toStandard(version)
}

/**
 * Changes a draft. What is published, or has sheets, stays as it is; code and number are the draft's own. `seen`: the stamp of
 * what the draft said when it was read; where somebody has changed it since, that is a conflict.
 */
export async function changeDraft(
  context: Context,
  actor: Actor,
  id: string,
  body: StandardBody,
  seen?: string,
): Promise<Standard> {
  requireAction(actor, 'manage-standards')
  const definition = soundDefinition(body)
  return recorded(context, actor, async (tx, note) => {
    const draft = await lockDraft(tx, id)
    if (seen !== undefined && seen !== definitionStamp(draft.definition)) {
      throw conflict('draft-changed', 'Somebody else has changed this draft since it was read. Read it again.')
    }
    const pointer = body.code === draft.code ? '/version' : '/code'
    if (body.code !== draft.code || body.version !== draft.version) {
      throw invalid('another-version', pointer, 'A draft keeps its code and number. Make a new draft instead.')
    }
    await noteNew(tx, note, { arms: definition.arms })
    await updateStandardVersion(tx, id, definition)
    await bumpRevision(tx)
    const { code, version } = draft
    note({ action: 'standard.draft-changed', subject: { kind: 'standard', id }, after: { code, version } })
    return toStandard(requireVersion((await readCatalogue(tx)).standards, id).own)
  })
}

/** Deletes a draft, which nothing was tested by. */
export async function deleteDraft(context: Context, actor: Actor, id: string): Promise<void> {
  requireAction(actor, 'manage-standards')
  await recorded(context, actor, async (tx, note) => {
    const { code, version, standardId } = await lockDraft(tx, id)
    await deleteStandardVersion(tx, id, standardId)
    await bumpRevision(tx)
    note({ action: 'standard.draft-deleted', subject: { kind: 'standard', id }, before: { code, version } })
  })
}

async function lockDraft(tx: Transaction, id: string): Promise<StandardVersion> {
  await lockCatalogue(tx)
  const { own } = requireVersion((await readCatalogue(tx)).standards, id)
  if (own.publishedAt !== null) {
    throw conflict('published', 'A published version is frozen. Make a new version from it instead.')
  }
  if (await hasSheets(tx, id)) {
    throw conflict(
      'draft-used',
      'Sheets were taken under this draft, so it stays as it is. Make a new version from it.',
    )
  }
  return own
}

/** What is otherwise in a version than in the one before it, or in another. */
export async function compareVersions(
  context: Context,
  _actor: Actor,
  id: string,
  withId?: string,
): Promise<Comparison> {
  const { standards } = await context.catalogue.current(context.db)
  const { own, all } = requireVersion(standards, id)
  const other = withId ? requireVersion(standards, withId).own : all.findLast(({ version }) => version < own.version)
  if (!other) return { with: null, changes: [] }
  return { with: other.version, changes: compareDefinitions(other.definition, own.definition) }
}

/** All versions of all standards, by code and version. */
export async function findStandards(
  context: Context,
  _actor: Actor,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: Standard[]; next: string | null }> {
  const key = fromCursor(query.after, ['text', 'number'])
  const { standards } = await context.catalogue.current(context.db)
  const rows = [...standards.values()]
    .flat()
    .filter(({ code, version }) => !key || code > String(key[0]) || (code === key[0] && version > Number(key[1])))
    .slice(0, query.limit + 1)
  return toPage(rows, query.limit, ({ code, version }) => [code, version], toStandard)
}

/** One version of a standard. */
export async function getStandard(context: Context, _actor: Actor, id: string): Promise<Standard> {
  return toStandard(requireVersion((await context.catalogue.current(context.db)).standards, id).own)
}

/** What tells one state of a draft from another. */
export const stampOf = ({ id: _id, publishedAt: _at, ...definition }: Standard): string => definitionStamp(definition)

const toStandard = ({ definition, id, publishedAt }: StandardVersion): Standard => ({ ...definition, id, publishedAt })
