import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { settle } from '../../../assessment/services/settle.ts'
import type { Context } from '../../../context/context.ts'
import { shareCatalogue } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { asSuperior } from '../../../domain/access/scope.ts'
import { addDays } from '../../../domain/calendar/plain-date.ts'
import { conflict, notFound } from '../../../errors.ts'
import { notifyAwards } from '../../../notices/services/notify-award.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { lockWord, takeBackWord, type WordKind } from '../../db/commanders-words.db.ts'

const ACTIONS: Record<WordKind, string> = {
  decision: 'award.decision-taken-back',
  extension: 'award.extension-taken-back',
}

/** Takes back what a commander said about an award: it counts no more, on no day. */
export async function takeBack(
  context: Context,
  actor: Actor,
  kind: WordKind,
  id: string,
  reason: string,
): Promise<{ id: string }> {
  requireAction(actor, 'approve-awards')
  const scope = asSuperior(await scopeFor(context, actor))
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    const catalogue = await context.catalogue.current(tx)
    const word = await lockWord(tx, kind, id)
    const visible = word ? await soldiersInScope(tx, scope, [word.soldierId]) : []
    if (!word || visible.length === 0) throw notFound(kind)
    const { soldierId, carriedThrough } = word
    await requireImpartial(tx, actor, [soldierId])
    if (word.takenBack) throw conflict('taken-back', 'This was taken back already.')
    const at = context.clock()
    await takeBackWord(tx, kind, id, { at, reason, byId: actor.accountId })
    note({ action: ACTIONS[kind], subject: { kind: 'soldier', id: soldierId }, after: { word: id }, reason })
    const anew = carriedThrough === null ? {} : { qualifiesAnewFrom: addDays(carriedThrough, 1) }
    await settle(tx, catalogue, at, [{ soldierId, ...anew }], note)
    const told = kind === 'decision' ? 'decision taken back' : 'extension taken back'
    await notifyAwards(tx, at, told, [{ soldierId, certification: word.certification, day: null }], actor.soldierId)
    return { id }
  })
}
