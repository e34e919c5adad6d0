import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import type { Transaction } from '../../../db/client.ts'
import { shareSoldiers } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import type { BookingRule, Prospect, Stretch } from '../../../domain/booking/types.ts'
import type { PlanProblem } from '../../../domain/plans/problem.ts'
import { type ChoiceFacts, choicesOf } from '../../../domain/plans/retests/choices.ts'
import { AppError, type ErrorItem } from '../../../errors.ts'
import { notifyBooking } from '../../../notices/services/notify-booking.ts'
import type { Note } from '../../../record/services/recorded.ts'
import {
  insertBooking,
  type LockedBooking,
  lockBooking,
  updateBooking,
} from '../../../test-days/db/bookings/bookings.db.ts'
import { type LockedSlot, lockSlots } from '../../../test-days/db/bookings/slots.db.ts'
import { gatherProspects } from '../../../test-days/services/bookings/gather-prospects.ts'
import { placeOf } from '../../../test-days/services/bookings/place-of.ts'
import type { PlanBooking } from '../../db/plan-bookings.db.ts'
import { listCoaching, readPeople } from '../../db/retest-facts.db.ts'

/** A pair that is accepted, as the problem has it. */
interface Chosen {
  readonly pair: string
  readonly candidateId: string
  readonly standard: string
  readonly slotId: string
  /** The booking that moves; null: a new one. */
  readonly bookingId: string | null
}

/**
 * Books chosen pairs of a retest plan, all or none, as if by hand: what the rules of a booking would refuse, hold or warn
 * of by now is a conflict that names each. A booking that stays in its slot is left as it is.
 */
export async function acceptRetests(
  context: Context,
  tx: Transaction,
  note: Note,
  actor: Actor,
  problem: PlanProblem,
  pairs: readonly string[],
): Promise<PlanBooking[]> {
  const chosen = chosenOf(problem, pairs)
  const catalogue = await context.catalogue.current(tx)
  await shareSoldiers(tx, [...new Set(chosen.map(({ candidateId }) => candidateId))])
  const slots = new Map(
    (
      await lockSlots(
        tx,
        chosen.map(({ slotId }) => slotId),
      )
    ).map((slot) => [slot.id, slot]),
  )
  const moving = new Map<string, LockedBooking>()
  for (const { bookingId } of chosen) {
    const booking = bookingId === null ? null : await lockBooking(tx, bookingId)
    if (booking) moving.set(booking.id, booking)
  }
  // Bookings give up their slots first, since they may move in a ring, and are in nobody's way then.
  for (const { id } of moving.values()) await updateBooking(tx, id, { slotId: null })
  const now = context.clock()
  const from = [...slots.values()].map(({ day }) => day).sort()[0] ?? '9999-12-31'
  const graderIds = [...new Set([...slots.values()].flatMap(({ graderId }) => graderId ?? []))]
  const wanted = chosen.map(({ candidateId, standard, bookingId }) => ({ candidateId, standard, movedId: bookingId }))
  const prospects = await gatherProspects(tx, catalogue, wanted, { from, graderIds, now })
  const names = await readPeople(
    tx,
    chosen.map(({ candidateId }) => candidateId),
    from,
  )
  const facts = await factsOf(context, tx, [...slots.values()])
  const items = chosen.flatMap((one, at): ErrorItem[] => {
    const slot = slots.get(one.slotId)
    const isMovable = one.bookingId === null || moving.get(one.bookingId)?.state === 'booked'
    const why = !isMovable
      ? ['The booking was changed.']
      : slot === undefined
        ? ['The slot was removed.']
        : (gone(slot, now, moving) ?? refusedBy(prospects[at]!, slot, facts))
    const who = names.get(one.candidateId)?.name ?? 'Somebody'
    return why.map((detail) => ({ pointer: `/pairs/${at}`, rule: 'changed-since', detail: `${who}: ${detail}` }))
  })
  if (items.length > 0) {
    const detail =
      'Some of this does not hold any more, so nothing was booked. Work the plan out again, or leave them out.'
    throw new AppError('conflict', 'changed-since', detail, items)
  }
  const made: PlanBooking[] = []
  for (const one of chosen) {
    const booking = one.bookingId === null ? null : moving.get(one.bookingId)!
    const standardId = catalogue.standards.get(one.standard)![0]!.standardId
    const kept = await bookOne(tx, note, actor, now, { one, booking, slot: slots.get(one.slotId)!, standardId })
    if (kept) made.push(kept)
  }
  return made
}

interface ToBook {
  readonly one: Chosen
  /** The booking that moves; null: a new one. */
  readonly booking: LockedBooking | null
  readonly slot: LockedSlot
  readonly standardId: string
}

/** Books or moves one; null where it stays in its slot. */
async function bookOne(
  tx: Transaction,
  note: Note,
  actor: Actor,
  now: Date,
  { one, booking, slot, standardId }: ToBook,
): Promise<PlanBooking | null> {
  const { testDayId, graderId, startsAt } = slot
  const { candidateId, standard, pair } = one
  const placed = { testDayId, slotId: slot.id, graderId, startsAt }
  const told = { candidateId, standard, testDayId, day: slot.day, startsAt }
  const subject = { kind: 'soldier', id: candidateId }
  if (booking === null) {
    const bookingId = await insertBooking(tx, { ...placed, candidateId, standardId })
    await notifyBooking(tx, now, actor, 'booked', { ...told, graderIds: [graderId] })
    note({ action: 'booking.added', subject, after: { bookingId, testDayId, standard, slotId: slot.id } })
    return { pair, bookingId, testDayId, slotId: slot.id, fromSlotId: null }
  }
  await updateBooking(tx, booking.id, placed)
  if (booking.slotId === slot.id) return null
  await notifyBooking(tx, now, actor, 'moved', { ...told, graderIds: [booking.graderId, graderId] })
  const before = { bookingId: booking.id, testDayId: booking.testDayId, slotId: booking.slotId }
  note({ action: 'booking.moved', subject, before, after: { bookingId: booking.id, testDayId, slotId: slot.id } })
  return { pair, bookingId: booking.id, testDayId, slotId: slot.id, fromSlotId: booking.slotId }
}

function chosenOf(problem: PlanProblem, pairs: readonly string[]): Chosen[] {
  const tests = new Map(problem.wanted.map((one) => [one.id, one]))
  const places = new Map(problem.places.map((one) => [one.id, one]))
  const ids = new Set(pairs)
  return problem.pairs
    .filter(({ id }) => ids.has(id))
    .map(({ id, wanted, place }) => {
      const { candidateId, standard, bookingId } = tests.get(wanted)!
      const { slotId } = places.get(place)!
      return {
        pair: id,
        candidateId: String(candidateId),
        standard: String(standard),
        slotId: String(slotId),
        bookingId: bookingId === null ? null : String(bookingId),
      }
    })
}

function gone(slot: LockedSlot, now: Date, moving: ReadonlyMap<string, unknown>): string[] | null {
  if (slot.calledOff) return ['The test day was called off.']
  if (slot.startsAt <= now) return ['The slot has begun.']
  return slot.bookingId !== null && !moving.has(slot.bookingId) ? ['Somebody else is booked in the slot.'] : null
}

async function factsOf(context: Context, tx: Transaction, slots: readonly LockedSlot[]): Promise<ChoiceFacts> {
  const days = slots.map(({ day }) => day).sort()
  const coaching = new Map<string, Stretch[]>()
  if (days[0]) {
    for (const { sponsorId, from, to } of await listCoaching(tx, { from: days[0], to: days.at(-1)! })) {
      coaching.set(sponsorId, [...(coaching.get(sponsorId) ?? []), { from, to }])
    }
  }
  return { today: await todayOf(context), coaching }
}

/** What refuses the slot by now, by the rules that the plan was made by. */
function refusedBy(prospect: Prospect, slot: LockedSlot, facts: ChoiceFacts): string[] {
  const place = placeOf(slot)
  const [choice] = choicesOf({ prospect }, [place], facts)
  const refused = choice?.refused ?? []
  if (refused.length === 0) return []
  const known = bookingConflicts(prospect)(place).filter(({ rule }) => refused.includes(rule))
  const beyond = refused.filter((rule) => known.every((one) => one.rule !== rule))
  return [...known.map(({ detail }) => detail), ...beyond.map((rule) => BEYOND[rule] ?? 'This cannot be any more.')]
}

/** What a plan asks for beyond the rules of a booking. */
const BEYOND: Partial<Record<BookingRule, string>> = {
  'two-at-once': 'The candidate has something else to do less than half an hour from it.',
  'candidate-on-ceremony': 'The candidate is on duty less than half an hour from it.',
  'booked-already': 'The candidate has two tests that day already.',
  'sponsor-busy': 'The sponsor is with another candidate at that time.',
  'grader-absent': 'The grader is with a candidate they coach at that time.',
}
