import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { settle } from '../../../assessment/services/settle.ts'
import type { Context } from '../../../context/context.ts'
import { today } from '../../../context/today.ts'
import type { AwardDecisionBody } from '../../../contract/readiness/commanders-words.ts'
import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { lockSoldiers, shareCatalogue } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { asSuperior } from '../../../domain/access/scope.ts'
import { termsOn } from '../../../domain/certification/terms-on.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { notifyAwards, type ToldAward } from '../../../notices/services/notify-award.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { requireNotRemoved } from '../../../soldiers/services/removals/require-not-removed.ts'
import { insertAwardDecision, readCandidatesOf, readWaitingDay } from '../../db/commanders-words.db.ts'

/**
 * Signs awards that wait, or refuses them: all or none, by a commander above the soldiers who is not one of them and coaches
 * none of them. This is a signature: the route asks once more who they are.
 */
export async function decideAwards(
  context: Context,
  actor: Actor,
  { items, ...decision }: AwardDecisionBody,
): Promise<{ items: { id: string }[] }> {
  requireAction(actor, 'approve-awards')
  const scope = asSuperior(await scopeFor(context, actor))
  const day = await today(context, actor.unitId ?? undefined)
  const on = decision.on ?? day
  if (on > day)
    throw invalid('in-the-future', '/on', 'Nothing is signed for a day to come. Give today or an earlier day.')
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    const catalogue = await context.catalogue.current(tx)
    const candidates = await readCandidatesOf(
      tx,
      items.map(({ sheetId }) => sheetId),
    )
    const soldierIds = [...new Set(candidates.values())].sort()
    await lockSoldiers(tx, soldierIds)
    if ((await soldiersInScope(tx, scope, soldierIds)).length < soldierIds.length) throw notFound('award')
    await requireNotRemoved(tx, soldierIds)
    await requireImpartial(tx, actor, soldierIds)
    const ids: { id: string }[] = []
    const decided: ToldAward[] = []
    for (const [index, { sheetId, certification }] of items.entries()) {
      const soldierId = candidates.get(sheetId)
      if (soldierId === undefined) throw notFound('award')
      const { certificationId, awardedOn, inForceFrom } = await requireWaiting(tx, catalogue, {
        index,
        sheetId,
        certification,
        on,
      })
      const { reason } = decision
      const row = {
        soldierId,
        certificationId,
        sheetId,
        decision: decision.decision,
        on,
        reason,
        byId: actor.accountId,
      }
      const id = await insertAwardDecision(tx, row)
      ids.push({ id })
      decided.push({ soldierId, certification, day: decision.decision === 'approve' ? inForceFrom : awardedOn })
      note({
        action: decision.decision === 'approve' ? 'award.approved' : 'award.refused',
        subject: { kind: 'soldier', id: soldierId },
        after: { word: id, certification, sheetId, on },
        reason,
      })
    }
    const triggers = soldierIds.map((soldierId) => ({ soldierId }))
    const at = context.clock()
    await settle(tx, catalogue, at, triggers, note)
    const kind = decision.decision === 'approve' ? 'award approved' : 'award refused'
    await notifyAwards(tx, at, kind, decided, actor.soldierId)
    return { items: ids }
  })
}

/** An award that waits still on the day, and from when it would be in force; a conflict where it was decided meanwhile. */
async function requireWaiting(
  tx: Transaction,
  catalogue: Catalogue,
  { index, sheetId, certification, on }: { index: number; sheetId: string; certification: string; on: string },
): Promise<{ certificationId: string; awardedOn: string; inForceFrom: string }> {
  const found = catalogue.certifications.find(({ code }) => code === certification)
  const awardedOn = found ? await readWaitingDay(tx, sheetId, found.id) : null
  if (!found || awardedOn === null) {
    throw conflict(
      'not-waiting',
      'One of these waits no longer: it was decided, or a sheet changed. Look at the list again.',
    )
  }
  if (on < awardedOn) {
    const detail = `The tests were passed on ${awardedOn}; sign on or after that day.`
    throw invalid('before-the-award', `/items/${index}`, detail)
  }
  const { approval } = termsOn(found.terms, awardedOn)
  return { certificationId: found.id, awardedOn, inForceFrom: approval === 'required' ? on : awardedOn }
}
