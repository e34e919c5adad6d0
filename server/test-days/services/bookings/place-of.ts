import type { FreeSlot } from '../../../domain/booking/assign-slots.ts'
import type { LockedSlot } from '../../db/bookings/slots.db.ts'

/** A slot as the domain knows it. */
export const placeOf = ({
  id,
  testDayId,
  day,
  graderId,
  startsAt,
  endsAt,
}: Omit<LockedSlot, 'bookingId' | 'calledOff'>): FreeSlot => ({
  slotId: id,
  testDayId,
  day,
  graderId,
  time: { from: startsAt.getTime(), to: endsAt.getTime() },
})
