import { isDeepStrictEqual } from 'node:util'
import { readSoldierTimeZone } from '../../access/db/units.db.ts'
import { notAllowed, requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { Practice, PracticeBody } from '../../contract/coaching/practices.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { mayRemoveNote } from '../../domain/access/coaching-notes.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readPresentIds } from '../../soldiers/db/merges/merges.db.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'
import { deletePractice, insertPractice, listPractices, lockPractice, type StoredPractice } from '../db/practices.db.ts'
import { coachingScope } from './coaching-notes.ts'

/**
 * Stores practice of chosen measures under the id that the phone gave it: once, whatever is repeated. It counts for nothing.
 * A sponsor sends that of whom they coached on its day, so that one which waited on a phone is not lost; the office any.
 * Out: whether it is new. Another practice under this id is a conflict; unknown people, measures or faults are invalid.
 */
export async function storePractice(
  context: Context,
  actor: Actor,
  id: string,
  sent: PracticeBody,
): Promise<{ created: boolean }> {
  requireAction(actor, 'coach')
  requireInOrder(sent)
  const scope = coachingScope(await scopeFor(context, actor))
  return recorded(context, actor, async (tx, note) => {
    const kept = (await readPresentIds(tx, [sent.candidateId])).get(sent.candidateId)
    const body = { ...sent, candidateId: kept ?? sent.candidateId }
    await shareSoldiers(tx, [body.candidateId])
    const zone = await readSoldierTimeZone(tx, body.candidateId, sent.finishedAt.slice(0, 10))
    const on = dayInZone(body.finishedAt, zone ?? context.timeZone)
    if ((await soldiersInScope(tx, { ...scope, today: on }, [body.candidateId])).length === 0) throw notFound('soldier')
    requireMeasures(await context.catalogue.current(tx), body)
    const row = { ...body, on, byId: actor.accountId, at: context.clock() }
    if (await insertPractice(tx, id, row)) {
      const after = { on, standard: body.standard, measures: body.measures.map(({ code }) => code) }
      note({ action: 'practice.stored', subject: { kind: 'soldier', id: body.candidateId }, after })
      return { created: true }
    }
    const stored = await lockPractice(tx, id)
    if (stored?.byId === actor.accountId && isSame(stored, body)) return { created: false }
    throw conflict('id-used', 'Another practice is stored under this id. Send this one under an id of its own.')
  })
}

/** Deletes practice that was entered by mistake, for good: whoever led it, or the office. */
export async function removePractice(context: Context, actor: Actor, id: string): Promise<void> {
  requireAction(actor, 'coach')
  const scope = coachingScope(await scopeFor(context, actor))
  await recorded(context, actor, async (tx, note) => {
    const found = await lockPractice(tx, id)
    const isSeen = found !== null && (await soldiersInScope(tx, scope, [found.candidateId])).length > 0
    if (!isSeen) throw notFound('practice')
    if (!mayRemoveNote(actor, found)) throw notAllowed()
    await deletePractice(tx, id)
    const { on, standard, measures, candidateId } = found
    const before = { on, standard, measures: measures.map(({ code }) => code) }
    note({ action: 'practice.removed', subject: { kind: 'soldier', id: candidateId }, before })
  })
}

/** What was practised with a candidate, the latest first, for who may see their coaching. */
export async function findPractices(
  context: Context,
  actor: Actor,
  candidateId: string,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: Practice[]; next: string | null }> {
  const scope = { ...(await scopeFor(context, actor)), graderId: null }
  if ((await soldiersInScope(context.db, scope, [candidateId])).length === 0) throw notFound('soldier')
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { finishedAt: String(key[0]), id: String(key[1]) }
  const rows = await listPractices(context.db, scope, candidateId, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ finishedAt, id }) => [finishedAt, id],
    ({ byId, ...practice }) => ({ ...practice, mayRemove: mayRemoveNote(actor, { byId }) }),
  )
}

/** Is this the same practice as is stored? Times are kept in whole milliseconds. */
function isSame(stored: StoredPractice, sent: PracticeBody): boolean {
  const facts = ({ candidateId, standard, arm, startedAt, finishedAt, measures }: PracticeBody) => [
    candidateId,
    standard,
    arm,
    Date.parse(startedAt),
    Date.parse(finishedAt),
    measures,
  ]
  return isDeepStrictEqual(facts(stored), facts(sent))
}

function requireInOrder({ startedAt, finishedAt }: PracticeBody): void {
  if (Date.parse(startedAt) <= Date.parse(finishedAt)) return
  throw invalid('finished-before-started', '/finishedAt', 'The practice ends before it starts; correct the times.')
}

/** Measures are those of any version of the standard; a major measure is stood for all through and is not tried. */
function requireMeasures({ standards }: Catalogue, { standard, measures }: PracticeBody): void {
  const versions = standards.get(standard)
  if (!versions) throw invalid('unknown-standard', '/standard', `There is no standard "${standard}".`)
  const known = versions.flatMap(({ definition }) => definition.minors)
  for (const [place, { code, trials, faults }] of measures.entries()) {
    const at = `/measures/${place}`
    if (measures.findIndex((one) => one.code === code) !== place) {
      throw invalid('repeated-measure', at, `The measure "${code}" is named twice; put its trials together.`)
    }
    const same = known.filter((minor) => minor.code === code)
    if (same.length === 0)
      throw invalid('unknown-measure', `${at}/code`, `This standard has no minor measure "${code}".`)
    const codes = new Set(same.flatMap((minor) => minor.faults.map((fault) => fault.code)))
    for (const [number, fault] of faults.entries()) {
      const where = `${at}/faults/${number}`
      if (!codes.has(fault.code)) throw invalid('unknown-fault', where, `The measure has no fault "${fault.code}".`)
      if (fault.trial > trials.length) throw invalid('unknown-trial', where, `There is no trial ${fault.trial}.`)
    }
  }
}
