import { notAllowed, requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { todayOfSoldier } from '../../context/today.ts'
import type { CoachingNote, CoachingNoteBody } from '../../contract/coaching/coaching-notes.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { mayChangeNote, mayRemoveNote } from '../../domain/access/coaching-notes.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'
import {
  insertNote,
  listNotes,
  lockNote,
  purgeRemovedNotes,
  type StoredNote,
  setNoteRemoved,
  updateNote,
} from '../db/coaching-notes.db.ts'

/** A removed note can be brought back for so long, then it is deleted for good. */
const KEPT_AFTER_REMOVAL_MS = 24 * 60 * 60 * 1000

/** A sponsor, or the office, writes down what was drilled with a candidate. Throws an AppError for a day to come. */
export async function addNote(context: Context, actor: Actor, candidateId: string, body: CoachingNoteBody) {
  requireAction(actor, 'coach')
  const scope = coachingScope(await scopeFor(context, actor))
  await requireNotAhead(context, candidateId, body)
  return recorded(context, actor, async (tx, note) => {
    await shareSoldiers(tx, [candidateId])
    if ((await soldiersInScope(tx, scope, [candidateId])).length === 0) throw notFound('soldier')
    requireMeasures(await context.catalogue.current(tx), body)
    const id = await insertNote(tx, candidateId, actor.accountId, context.clock(), body)
    note({ action: 'coaching-note.added', subject: { kind: 'soldier', id: candidateId }, after: forRecord(body) })
    return { id }
  })
}

/** Its author changes a note, for two weeks; after that another one is written. */
export async function changeNote(context: Context, actor: Actor, id: string, body: CoachingNoteBody) {
  return withNote(context, actor, id, async (tx, note) => {
    if (note.byId !== actor.accountId) throw notAllowed()
    if (note.removedAt !== null) throw notFound('coaching note')
    if (!mayChangeNote(actor, note, context.clock())) {
      throw conflict('note-stands', 'The note is older than two weeks and stays as it is. Write another one.')
    }
    await requireNotAhead(context, note.candidateId, body)
    requireMeasures(await context.catalogue.current(tx), body)
    await updateNote(tx, id, context.clock(), body)
    return { action: 'coaching-note.changed', before: forRecord(note), after: forRecord(body) }
  })
}

/** Its author or the office removes a note; for a day it can be brought back. */
export async function removeNote(context: Context, actor: Actor, id: string) {
  return withNote(context, actor, id, async (tx, note) => {
    if (!mayRemoveNote(actor, note)) throw notAllowed()
    if (note.removedAt !== null) throw notFound('coaching note')
    await purgeRemovedNotes(tx, new Date(context.clock().getTime() - KEPT_AFTER_REMOVAL_MS))
    await setNoteRemoved(tx, id, context.clock())
    return { action: 'coaching-note.removed', before: forRecord(note) }
  })
}

/** Brings a removed note back. One that is there already stays as it is. */
export async function restoreNote(context: Context, actor: Actor, id: string) {
  return withNote(context, actor, id, async (tx, note) => {
    if (!mayRemoveNote(actor, note)) throw notAllowed()
    await setNoteRemoved(tx, id, null)
    return { action: 'coaching-note.restored', after: forRecord(note) }
  })
}

/** A candidate's notes, the latest day first, for who may see them. */
export async function findNotes(
  context: Context,
  actor: Actor,
  candidateId: string,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: CoachingNote[]; next: string | null }> {
  const scope = { ...(await scopeFor(context, actor)), graderId: null }
  if ((await soldiersInScope(context.db, scope, [candidateId])).length === 0) throw notFound('soldier')
  const key = fromCursor(query.after, ['day', 'uuid'])
  const after = key && { on: String(key[0]), id: String(key[1]) }
  const rows = await listNotes(context.db, scope, candidateId, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ on, id }) => [on, id],
    ({ byId, writtenAt, changedAt, removedAt: _, ...note }) => ({
      ...note,
      writtenAt: writtenAt.toISOString(),
      changedAt: changedAt?.toISOString() ?? null,
      mayChange: mayChangeNote(actor, { byId, writtenAt }, context.clock()),
      mayRemove: mayRemoveNote(actor, { byId }),
    }),
  )
}

/** Whose coaching somebody may write about: a sponsor their present candidates', the office everybody's. */
export const coachingScope = (scope: Scope): Scope => ({ ...scope, unitId: null, selfId: null, graderId: null })

async function withNote(
  context: Context,
  actor: Actor,
  id: string,
  work: (tx: Transaction, note: StoredNote) => Promise<{ action: string; before?: unknown; after?: unknown }>,
): Promise<{ id: string }> {
  requireAction(actor, 'coach')
  const scope = coachingScope(await scopeFor(context, actor))
  return recorded(context, actor, async (tx, note) => {
    const found = await lockNote(tx, scope, id)
    if (!found) throw notFound('coaching note')
    note({ ...(await work(tx, found)), subject: { kind: 'soldier', id: found.candidateId } })
    return { id }
  })
}

/** What was written stays out of the record: who reads the record sees no grades. */
const forRecord = ({ on, standard, measures }: Pick<CoachingNoteBody, 'on' | 'standard' | 'measures'>) => ({
  on,
  standard,
  measures,
})

async function requireNotAhead(context: Context, candidateId: string, { on }: CoachingNoteBody): Promise<void> {
  if (on <= (await todayOfSoldier(context, candidateId))) return
  throw invalid('day-to-come', '/on', 'A note is about a day that has come; give the day of the practice.')
}

function requireMeasures({ standards }: Catalogue, { standard, measures }: CoachingNoteBody): void {
  const versions = standards.get(standard)
  if (!versions) throw invalid('unknown-standard', '/standard', `There is no standard "${standard}".`)
  const known = new Set(
    versions.flatMap(({ definition }) => [...definition.majors, ...definition.minors].map(({ code }) => code)),
  )
  const at = measures.findIndex((code) => !known.has(code))
  if (at >= 0) throw invalid('unknown-measure', `/measures/${at}`, `This standard has no measure "${measures[at]}".`)
}
