import type { BookingConflict } from '../../../domain/booking/types.ts'
import { AppError, conflict, notFound } from '../../../errors.ts'
import type { LockedSlot } from '../../db/bookings/slots.db.ts'

/** Refuses a slot that is gone, over, taken by another booking, or of a day called off. */
export function requireFreeSlot(slot: LockedSlot | undefined, now: Date, movedId: string | null = null): LockedSlot {
  if (!slot) throw notFound('slot')
  if (slot.calledOff) throw dayCalledOff()
  if (slot.endsAt <= now) throw conflict('slot-over', 'This slot is over. Choose one that is still to come.')
  if (slot.bookingId !== null && slot.bookingId !== movedId) {
    throw conflict('slot-taken', 'Somebody else is booked in this slot. Choose another one.')
  }
  return slot
}

export const dayCalledOff = (): AppError =>
  conflict('day-called-off', 'This test day was called off. Choose another one.')

/** Refuses a grader who grades the same attempt as the second. */
export function requireAnotherThanSecond(secondGraderId: string | null, graderId: string | null): void {
  if (secondGraderId === null || secondGraderId !== graderId) return
  throw conflict(
    'second-is-another',
    'This grader grades the same attempt as the second. Name another second grader first.',
  )
}

/** Refuses a booking that cannot be, or that nobody can waive. */
export function requireUnrefused(conflicts: readonly BookingConflict[]): void {
  const refused = conflicts.filter(({ weight }) => weight === 'blocks')
  if (!refused[0]) return
  const items = refused.map(({ rule, detail }) => ({ pointer: '', rule, detail }))
  throw new AppError('conflict', refused[0].rule, refused.map(({ detail }) => detail).join(' '), items)
}
