import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { readDossier } from '../../../assessment/db/dossiers.db.ts'
import type { Context } from '../../../context/context.ts'
import { todayOfSoldier } from '../../../context/today.ts'
import type { ExtensionBody } from '../../../contract/readiness/commanders-words.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { asSuperior } from '../../../domain/access/scope.ts'
import { awardToExtend } from '../../../domain/assessment/award-to-extend.ts'
import { addDays } from '../../../domain/calendar/plain-date.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { notifyAwards } from '../../../notices/services/notify-award.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { recordAboutSoldier, requireCertification } from '../../../soldiers/services/record-about-soldier.ts'
import { insertExtension } from '../../db/commanders-words.db.ts'

/** Adds days to the award in force, by a commander above the soldier and within what the terms allow. */
export async function extendAward(context: Context, actor: Actor, body: ExtensionBody): Promise<{ id: string }> {
  requireAction(actor, 'approve-awards')
  const { soldierId, certification: code, days, kind, reason } = body
  const scope = asSuperior(await scopeFor(context, actor))
  const day = await todayOfSoldier(context, soldierId)
  const on = body.on ?? day
  if (on > day)
    throw invalid('in-the-future', '/on', 'Nothing is extended on a day to come. Give today or an earlier day.')
  return recordAboutSoldier(context, actor, soldierId, async (tx, catalogue) => {
    if ((await soldiersInScope(tx, scope, [soldierId])).length === 0) throw notFound('soldier')
    const certification = requireCertification(catalogue, code)
    const found = awardToExtend(certification, catalogue.judging.breaks, await readDossier(tx, soldierId), on)
    if (!found) {
      throw conflict(
        'nothing-to-extend',
        `No certification is in force on ${on}. What has lapsed is not extended: it takes a test.`,
      )
    }
    if (days > found.daysLeft) throw tooLong(found.daysLeft)
    const award = found.isCarried
      ? { sheetId: null, carriedAwardId: found.award }
      : { sheetId: found.award, carriedAwardId: null }
    const row = {
      soldierId,
      certificationId: certification.id,
      ...award,
      days,
      kind,
      on,
      reason,
      byId: actor.accountId,
    }
    const id = await insertExtension(tx, row)
    const validThrough = addDays(found.validThrough, days)
    const told = { soldierId, certification: code, day: validThrough }
    await notifyAwards(tx, context.clock(), 'award extended', [told], actor.soldierId)
    return {
      id,
      entry: {
        action: 'award.extended',
        before: { validThrough: found.validThrough },
        after: {
          word: id,
          certification: code,
          award: found.isCarried ? found.awardedOn : found.award,
          days,
          kind,
          on,
          validThrough,
        },
        reason,
      },
      triggers: [{ soldierId, qualifiesAnewFrom: addDays(found.validThrough, 1) }],
    }
  })
}

const tooLong = (left: number) =>
  invalid(
    'extension-limit',
    '/days',
    left === 0
      ? 'The terms of this certification allow no further day. The training office sets how many under Standards.'
      : `The terms allow ${left} more days for this certification. Give ${left} or fewer.`,
  )
