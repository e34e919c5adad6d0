import { createCeremony } from '../../server/ceremonies/services/create-ceremony.ts'
import type { Context } from '../../server/context/context.ts'
import type { Actor } from '../../server/domain/access/actor.ts'
import { addReview } from '../../server/readiness/services/suspensions/add-review.ts'
import { lift, suspend } from '../../server/readiness/services/suspensions/suspensions.ts'
import { amendSheet } from '../../server/sheets/services/amendments/amend-sheet.ts'
import { decideAmendment } from '../../server/sheets/services/amendments/decide-amendment.ts'
import { decideSheet } from '../../server/sheets/services/decide-sheet.ts'
import { submitSheet } from '../../server/sheets/services/submit-sheet.ts'
import { addAbsence } from '../../server/soldiers/services/absences.ts'
import { addAppointment } from '../../server/soldiers/services/add-appointment.ts'
import { addAward } from '../../server/soldiers/services/add-award.ts'
import { addSponsorship } from '../../server/soldiers/services/add-sponsorship.ts'
import { addWithdrawal } from '../../server/soldiers/services/add-withdrawal.ts'
import { setHeight } from '../../server/soldiers/services/set-height.ts'
import { changeSoldier, createSoldier } from '../../server/soldiers/services/soldiers.ts'
import { createCertification } from '../../server/standards/services/certifications.ts'
import { createStandard, publishStandard } from '../../server/standards/services/standards.ts'
import { createTestDay } from '../../server/test-days/services/test-days.ts'
import type { PlannedEvent } from '../generate/plan.ts'
import { type Ids, idOf, idOrNull } from './ids.ts'
import { toSheetBody } from './sheet-body.ts'

/** Who enters things: two people of the training office, one of whom confirms what the other proposed; and the graders. */
export interface Writers {
  readonly first: Actor
  readonly second: Actor
  readonly graders: Actor
}

/** Enters one planned event through the service that real ones go through, by the clock of its time. */
export async function enterEvent(context: Context, writers: Writers, ids: Ids, event: PlannedEvent): Promise<void> {
  const actor = writers.first
  const then: Context = { ...context, clock: () => new Date(event.at) }
  const soldier = () => idOf(ids.soldiers, 'soldier' in event ? event.soldier : '')
  switch (event.kind) {
    case 'standard': {
      const { id } = await createStandard(then, actor, event.body)
      await publishStandard(then, actor, id)
      return
    }
    case 'draft':
      await createStandard(then, actor, event.body)
      return
    case 'certification':
      await createCertification(then, actor, event.body)
      return
    case 'test-day': {
      const { id } = await createTestDay(then, actor, { ...event.body, unitId: idOf(ids.units, event.body.unitId) })
      ids.testDays.set(event.body.on, id)
      return
    }
    case 'ceremony': {
      const posts = event.body.posts.map((post) => ({ ...post, soldierId: idOrNull(ids.soldiers, post.soldierId) }))
      const alternates = event.body.alternates.map((key) => idOf(ids.soldiers, key))
      const unitId = idOf(ids.units, event.body.unitId)
      await createCeremony(then, actor, { ...event.body, unitId, posts, alternates })
      return
    }
    case 'soldier': {
      const { id } = await createSoldier(then, actor, { ...event.body, unitId: idOf(ids.units, event.body.unitId) })
      ids.soldiers.set(event.body.rosterNumber, id)
      return
    }
    case 'change': {
      const { unitId } = event.body
      const body = unitId === undefined ? event.body : { ...event.body, unitId: idOf(ids.units, unitId) }
      await changeSoldier(then, actor, soldier(), body)
      return
    }
    case 'award':
      await addAward(then, actor, soldier(), event.body)
      return
    case 'sponsorship':
      await addSponsorship(then, actor, soldier(), {
        ...event.body,
        sponsorId: idOf(ids.soldiers, event.body.sponsorId),
      })
      return
    case 'appointment':
      await addAppointment(then, actor, soldier(), event.body)
      return
    case 'review':
      await addReview(then, actor, soldier(), event.body)
      return
    case 'withdrawal':
      await addWithdrawal(then, actor, soldier(), event.body)
      return
    case 'suspension': {
      const { id } = await suspend(then, actor, { ...event.body, soldierId: soldier() })
      ids.suspensions.set(event.key, id)
      return
    }
    case 'lift':
      await lift(then, actor, idOf(ids.suspensions, event.key), event.body)
      return
    case 'absence':
      await addAbsence(then, actor, soldier(), event.body)
      return
    case 'height':
      await setHeight(then, actor, soldier(), event.heightCm)
      return
    case 'sheet':
      await sendSheet(then, writers, ids, event)
      return
    case 'decision':
      await decideSheet(then, actor, event.id, event.body)
      return
    case 'amendment': {
      const body = { ...event.body, sheet: toSheetBody(ids, event.body.sheet) }
      const answer = await amendSheet(then, actor, event.id, body)
      if ('proposed' in answer) ids.proposals.set(event.id, answer.proposed.id)
      return
    }
    case 'confirmation':
      await decideAmendment(then, writers.second, idOf(ids.proposals, event.id), event.body)
      return
  }
}

/** Graders send their own sheets; old paper of which only the outcome is known is entered by the office. */
async function sendSheet(
  then: Context,
  { first, graders }: Writers,
  ids: Ids,
  event: PlannedEvent & { kind: 'sheet' },
): Promise<void> {
  const body = toSheetBody(ids, event.body)
  const actor = body.outcomeOnly === null ? { ...graders, soldierId: body.graderId } : first
  await submitSheet(then, actor, event.id, body, new Date(event.deviceTime))
}
