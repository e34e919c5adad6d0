import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import { todayOfSoldier } from '../../../context/today.ts'
import type { DueMoveBody } from '../../../contract/readiness/retests.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict, invalid } from '../../../errors.ts'
import { insertNotices, readSponsorsOn } from '../../../notices/db/news.db.ts'
import { recordAboutSoldier, requireCertification } from '../../../soldiers/services/record-about-soldier.ts'
import { insertDueMove, readOpenRetest } from '../../db/due-moves.db.ts'

/**
 * Gives an open retest another due day, with a reason. It holds until the retest closes or another NO-GO comes; the due
 * day by the rules stays known beside it.
 */
export async function moveDueDay(
  context: Context,
  actor: Actor,
  soldierId: string,
  body: DueMoveBody,
): Promise<{ id: string }> {
  requireAction(actor, 'plan-test-days')
  const today = await todayOfSoldier(context, soldierId)
  return recordAboutSoldier(context, actor, soldierId, async (tx, catalogue) => {
    const { standard, due, reason } = body
    const { id: certificationId } = requireCertification(catalogue, body.certification)
    const open = await readOpenRetest(tx, soldierId, certificationId, standard, today)
    if (!open) throw conflict('retest-not-open', 'This retest is not open (any more); there is no due day to move.')
    if (due < open.earliest) {
      throw invalid(
        'due-before-earliest',
        '/due',
        `The retest is allowed from ${open.earliest} on; give that day or a later one.`,
      )
    }
    if (due === open.due) throw invalid('due-unchanged', '/due', 'That is the due day already; give another one.')
    const now = context.clock()
    const move = { soldierId, certificationId, standard, on: open.on, due, reason, movedAt: now }
    const id = await insertDueMove(tx, { ...move, movedById: actor.accountId })
    const to = [soldierId, ...(await readSponsorsOn(tx, soldierId, today))]
    await insertNotices(
      tx,
      now,
      [{ kind: 'due day moved', aboutId: soldierId, to, standard, day: due }],
      actor.soldierId,
    )
    const { on, due: before, ruleDue } = open
    const entry = { action: 'retest.due-moved', before: { due: before }, after: { ...body, on, ruleDue }, reason }
    return { id, entry, triggers: [] }
  })
}
