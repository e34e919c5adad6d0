import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { settle } from '../../../assessment/services/settle.ts'
import type { Context } from '../../../context/context.ts'
import type { LiftBody, SuspensionBody } from '../../../contract/soldiers/soldiers.ts'
import { shareCatalogue } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError, conflict, invalid, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { insertSuspension, liftSuspension, lockSuspension } from '../../../soldiers/db/soldier-records.db.ts'
import { recordAboutSoldier, requireCertification } from '../../../soldiers/services/record-about-soldier.ts'

/** Suspends a soldier's certification from a day on, until lifted. */
export async function suspend(context: Context, actor: Actor, body: SuspensionBody): Promise<{ id: string }> {
  requireAction(actor, 'suspend')
  try {
    return await recordAboutSoldier(context, actor, body.soldierId, async (tx, catalogue) => {
      const { id } = requireCertification(catalogue, body.certification)
      return {
        id: await insertSuspension(tx, id, body),
        entry: { action: 'suspension.began', after: body, reason: body.reason },
        triggers: [{ soldierId: body.soldierId, qualifiesAnewFrom: body.from }],
      }
    })
  } catch (error) {
    if (error instanceof AppError && error.kind === 'not-found') {
      throw invalid('unknown-person', '/soldierId', 'Nobody on the roster has this id.')
    }
    throw error
  }
}

/** Lifts a suspension: from the given day on it is no longer in force. A lifted one is a conflict. */
export async function lift(context: Context, actor: Actor, id: string, body: LiftBody): Promise<{ id: string }> {
  requireAction(actor, 'suspend')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    const catalogue = await context.catalogue.current(tx)
    const suspension = await lockSuspension(tx, id)
    const visible = suspension ? await soldiersInScope(tx, scope, [suspension.soldierId]) : []
    if (!suspension || visible.length === 0) throw notFound('suspension')
    await requireImpartial(tx, actor, [suspension.soldierId])
    if (suspension.lift !== null) {
      throw conflict('already-lifted', `This suspension was lifted on ${suspension.lift} already.`)
    }
    if (body.on < suspension.from) {
      throw invalid(
        'lifted-before-it-began',
        '/on',
        `The suspension began on ${suspension.from}; lift it on or after that day.`,
      )
    }
    await liftSuspension(tx, id, body)
    const { soldierId } = suspension
    const { on, reason } = body
    note({
      action: 'suspension.lifted',
      subject: { kind: 'soldier', id: soldierId },
      after: { suspension: id, on },
      reason,
    })
    await settle(tx, catalogue, context.clock(), [{ soldierId, qualifiesAnewFrom: on }], note)
    return { id }
  })
}
