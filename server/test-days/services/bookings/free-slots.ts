import type { Slot } from '../../../contract/test-days/test-days.ts'
import type { FreeSlot } from '../../../domain/booking/assign-slots.ts'

/** A free slot as the domain knows it, with what is shown of it. */
export interface ShownSlot extends FreeSlot {
  readonly shown: Slot
}

export const toFreeSlot = (slot: Slot): ShownSlot => ({
  slotId: slot.id,
  testDayId: slot.testDayId,
  day: slot.on,
  graderId: slot.graderId,
  time: { from: Date.parse(slot.startsAt), to: Date.parse(slot.endsAt) },
  shown: slot,
})
