import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import type { BulkBooking, BulkBookingBody } from '../../../contract/test-days/bookings.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import { overlap } from '../../../domain/booking/time-conflicts.ts'
import type { BookingConflict } from '../../../domain/booking/types.ts'
import { AppError, type ErrorItem, invalid } from '../../../errors.ts'
import { notifyBooking } from '../../../notices/services/notify-booking.ts'
import { type Note, recorded } from '../../../record/services/recorded.ts'
import { insertBooking } from '../../db/bookings/bookings.db.ts'
import { lockSlots } from '../../db/bookings/slots.db.ts'
import { refusingDuplicates } from './add-booking.ts'
import { gatherProspects } from './gather-prospects.ts'
import { placeOf } from './place-of.ts'
import { requireWanted } from './require-wanted.ts'

/**
 * Books many candidates, each in a slot, in one transaction: all of them, or with `whatFits` those that nothing refuses.
 * What is refused now, since it was planned, is a conflict that names each.
 */
export async function bookInBulk(context: Context, actor: Actor, body: BulkBookingBody): Promise<BulkBooking> {
  requireAction(actor, 'plan-test-days')
  return refusingDuplicates(() =>
    recorded(context, actor, async (tx, note) => {
      const judged = await judge(context, tx, body)
      const refused = judged.filter(({ conflicts }) => conflicts.some(({ weight }) => weight === 'blocks'))
      if (refused.length > 0 && !body.whatFits) throw refusal(judged)
      const booked: BulkBooking['booked'] = []
      for (const one of judged) {
        if (refused.includes(one)) continue
        booked.push(await store(tx, note, one))
        await notifyBooking(tx, context.clock(), actor, 'booked', { ...one, graderIds: [one.graderId] })
      }
      const answer = ({ candidateId, standard, slotId, conflicts }: Judged) => ({
        candidateId,
        standard,
        slotId,
        conflicts: [...conflicts],
      })
      return { booked, refused: refused.map(answer) }
    }),
  )
}

interface Judged {
  readonly candidateId: string
  readonly standard: string
  readonly standardId: string
  readonly slotId: string
  readonly testDayId: string
  readonly graderId: string | null
  readonly day: string
  readonly startsAt: Date
  readonly conflicts: readonly BookingConflict[]
}

async function judge(context: Context, tx: Transaction, { bookings }: BulkBookingBody): Promise<Judged[]> {
  const catalogue = await context.catalogue.current(tx)
  await requireWanted(tx, catalogue, bookings, '/bookings')
  const slots = new Map(
    (
      await lockSlots(
        tx,
        bookings.map(({ slotId }) => slotId),
      )
    ).map((slot) => [slot.id, slot]),
  )
  const missing = bookings.findIndex(({ slotId }) => !slots.has(slotId))
  if (missing !== -1) {
    throw invalid('unknown-slot', `/bookings/${missing}/slotId`, 'There is no such slot.')
  }
  const from = [...slots.values()].map(({ day }) => day).sort()[0]!
  const graders = [...new Set([...slots.values()].flatMap(({ graderId }) => graderId ?? []))]
  const wanted = bookings.map((one) => ({ ...one, movedId: null }))
  const now = context.clock()
  const prospects = await gatherProspects(tx, catalogue, wanted, { from, graderIds: graders, now })
  return bookings.map(({ candidateId, standard, slotId }, at) => {
    const slot = slots.get(slotId)!
    const place = placeOf(slot)
    const clashes = bookings.some(
      (other, before) =>
        before < at && other.candidateId === candidateId && overlap(placeOf(slots.get(other.slotId)!).time, place.time),
    )
    const conflicts: BookingConflict[] = bookingConflicts(prospects[at]!)(place)
    if (slot.calledOff) conflicts.unshift(refusedBy('day-called-off', 'This test day was called off.'))
    if (slot.endsAt <= now) conflicts.unshift(refusedBy('slot-over', 'This slot is over.'))
    if (slot.bookingId !== null) conflicts.unshift(refusedBy('slot-taken', 'Somebody else is booked in this slot.'))
    if (clashes) conflicts.unshift(refusedBy('two-at-once', 'The candidate would be tested twice at that time.'))
    const standardId = catalogue.standards.get(standard)![0]!.standardId
    const { testDayId, graderId, startsAt, day } = slot
    return { candidateId, standard, standardId, slotId, testDayId, graderId, day, startsAt, conflicts }
  })
}

const refusedBy = (rule: BookingConflict['rule'], detail: string): BookingConflict => ({
  rule,
  weight: 'blocks',
  detail,
})

function refusal(judged: readonly Judged[]): AppError {
  const items = judged.flatMap(({ conflicts }, at): ErrorItem[] =>
    conflicts
      .filter(({ weight }) => weight === 'blocks')
      .map(({ rule, detail }) => ({ pointer: `/bookings/${at}`, rule, detail })),
  )
  const detail = 'Some of these cannot be booked, so none was. Leave them out, or choose other slots.'
  return new AppError('conflict', items[0]!.rule, detail, items)
}

async function store(tx: Transaction, note: Note, judged: Judged): Promise<BulkBooking['booked'][number]> {
  const { candidateId, standard, standardId, slotId, testDayId, graderId, startsAt, conflicts } = judged
  const id = await insertBooking(tx, { testDayId, candidateId, standardId, slotId, graderId, startsAt })
  const after = { testDayId, standard, slotId, over: conflicts.map(({ rule }) => rule) }
  note({ action: 'booking.added', subject: { kind: 'soldier', id: candidateId }, after })
  return { id, candidateId, standard, slotId, conflicts: [...conflicts] }
}
