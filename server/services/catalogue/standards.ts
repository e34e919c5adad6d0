import type { Standard, StandardBody } from '../../contract/standards.ts'
import { bumpRevision, readCatalogue, type StandardVersion } from '../../db/catalogue.db.ts'
import { findConcerned, insertStandardVersion, publishStandardVersion } from '../../db/catalogue-writes.db.ts'
import { lockCatalogue, lockSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { checkDefinition } from '../../domain/standards/check-definition.ts'
import { AppError, conflict, invalid, notFound } from '../../errors.ts'
import { requireAction } from '../access/require.ts'
import { settle } from '../assessment/settle.ts'
import type { Context } from '../context.ts'
import { fromCursor, toPage } from '../cursor.ts'
import { recorded } from '../record/recorded.ts'

/** Stores a draft version of a standard. A definition that contradicts itself is invalid, a used version a conflict. */
export async function createStandard(context: Context, actor: Actor, body: StandardBody): Promise<{ id: string }> {
  requireAction(actor, 'manage-standards')
  const definition = body.calls.length > 0 ? body : { ...body, calls: measureAfterMeasure(body) }
  const problems = checkDefinition(definition)
  if (problems[0]) throw new AppError('invalid', problems[0].rule, problems[0].detail, problems)
  return recorded(context, actor, async (tx, note) => {
    await lockCatalogue(tx)
    const { standards } = await readCatalogue(tx)
    if (standards.get(body.code)?.some(({ version }) => version === body.version)) {
      throw conflict('version-used', `"${body.code}" has a version ${body.version} already; give the next number.`)
    }
    const id = await insertStandardVersion(tx, definition)
    await bumpRevision(tx)
    const { code, version } = body
    note({ action: 'standard.drafted', subject: { kind: 'standard', id }, after: { code, version } })
    return { id }
  })
}

const measureAfterMeasure = ({ minors, rule }: StandardBody): StandardBody['calls'] =>
  minors.flatMap(({ code }) => Array.from({ length: rule.trials }, (_, index) => ({ measure: code, trial: index + 1 })))

/**
 * Publishes a version: it is frozen, sheets of it are judged again, and from its day on it is the one in force.
 * Publishing again changes nothing. Versions must begin in the order of their numbers.
 */
export async function publishStandard(context: Context, actor: Actor, id: string): Promise<Standard> {
  requireAction(actor, 'manage-standards')
  return recorded(context, actor, async (tx, note) => {
    await lockCatalogue(tx)
    const before = findVersion((await readCatalogue(tx)).standards, id)
    if (!before) throw notFound('standard')
    if (before.own.publishedAt !== null) return toStandard(before.own)
    requireOrder(before.own, before.all)
    await publishStandardVersion(tx, id, context.clock())
    await bumpRevision(tx)
    const catalogue = await readCatalogue(tx)
    const concerned = await findConcerned(tx, [before.own.code])
    await lockSoldiers(tx, concerned)
    const { code, version } = before.own
    note({ action: 'standard.published', subject: { kind: 'standard', id }, after: { code, version } })
    await settle(
      tx,
      catalogue,
      context.clock(),
      concerned.map((soldierId) => ({ soldierId })),
      note,
    )
    return toStandard(findVersion(catalogue.standards, id)!.own)
  })
}

function findVersion(standards: ReadonlyMap<string, readonly StandardVersion[]>, id: string) {
  for (const all of standards.values()) {
    const own = all.find((version) => version.id === id)
    if (own) return { own, all }
  }
  return null
}

function requireOrder(own: StandardVersion, all: readonly StandardVersion[]): void {
  const clash = all.find(
    (other) =>
      other.publishedAt !== null &&
      (other.version < own.version
        ? other.effectiveFrom >= own.effectiveFrom
        : other.effectiveFrom <= own.effectiveFrom),
  )
  if (!clash) return
  const side = clash.version < own.version ? 'after' : 'before'
  const detail = `Version ${own.version} must begin ${side} version ${clash.version}, which is in force from ${clash.effectiveFrom}.`
  throw invalid('versions-out-of-order', '/effectiveFrom', detail)
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
  const found = findVersion((await context.catalogue.current(context.db)).standards, id)
  if (!found) throw notFound('standard')
  return toStandard(found.own)
}

const toStandard = ({ definition, id, publishedAt }: StandardVersion): Standard => ({ ...definition, id, publishedAt })
