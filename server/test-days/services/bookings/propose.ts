import type { BookingPlan, PlannedBooking } from '../../../contract/test-days/bookings.ts'
import type { Slot } from '../../../contract/test-days/test-days.ts'
import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { assignSlots, type FreeSlot } from '../../../domain/booking/assign-slots.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import type { BookingConflict, Prospect } from '../../../domain/booking/types.ts'
import { readNames } from '../../db/bookings/booking-facts.db.ts'
import { gatherProspects, type Wanted } from './gather-prospects.ts'

interface Options {
  readonly now: Date
  /** What makes any slot one too many for somebody, who is then given none; null: they need one. */
  readonly sparedBy?: (prospect: Prospect) => BookingConflict | null
}

/**
 * Who would get which of these free slots, with what is in the way there. Stores nothing.
 * Somebody without a slot is answered with what refuses every one of them, or with nothing where they are only all taken.
 */
export async function propose(
  tx: Transaction,
  catalogue: Catalogue,
  wanted: readonly Wanted[],
  slots: readonly Slot[],
  { now, sparedBy = () => null }: Options,
): Promise<BookingPlan> {
  const free = slots.map(toFreeSlot)
  const from = free.map(({ day }) => day).sort()[0] ?? '9999-12-31'
  const graders = [...new Set(free.flatMap(({ graderId }) => graderId ?? []))]
  const prospects = await gatherProspects(tx, catalogue, wanted, { from, graderIds: graders, now })
  const names = await readNames(
    tx,
    wanted.map(({ candidateId }) => candidateId),
  )
  const spared = prospects.map(sparedBy)
  const seekers = prospects.map((prospect, at) => ({
    key: String(at),
    candidateId: prospect.candidateId,
    conflictsAt: remembered(bookingConflicts(prospect)),
  }))
  const given = assignSlots(
    seekers.filter((_, at) => spared[at] === null),
    free,
  )
  const items = wanted.map(({ candidateId, standard, movedId }, at): PlannedBooking => {
    const slot = given.get(String(at))
    const shown = slot && free.find(({ slotId }) => slotId === slot.slotId)!.shown
    return {
      bookingId: movedId,
      candidateId,
      candidateName: names.get(candidateId) ?? '',
      standard,
      slotId: shown?.id ?? null,
      testDayId: shown?.testDayId ?? null,
      on: shown?.on ?? null,
      place: shown?.place ?? null,
      graderName: shown?.graderName ?? null,
      startsAt: shown?.startsAt ?? null,
      endsAt: shown?.endsAt ?? null,
      conflicts: slot
        ? [...seekers[at]!.conflictsAt(slot)]
        : spared[at]
          ? [spared[at]]
          : refusedEverywhere(seekers[at]!.conflictsAt, free),
    }
  })
  return { items, freeSlots: free.length }
}

/** What refuses every slot. */
function refusedEverywhere(
  conflictsAt: (slot: FreeSlot) => readonly BookingConflict[],
  free: readonly FreeSlot[],
): BookingConflict[] {
  const refusals = free.map((slot) => conflictsAt(slot).filter(({ weight }) => weight === 'blocks'))
  return refusals.every((list) => list.length > 0)
    ? [...new Map(refusals.flat().map((one) => [one.rule, one])).values()]
    : []
}

/** Each slot is asked about many times while slots are given out. */
function remembered(ask: (slot: FreeSlot) => BookingConflict[]): (slot: FreeSlot) => readonly BookingConflict[] {
  const known = new Map<string, readonly BookingConflict[]>()
  return (slot) => {
    const found = known.get(slot.slotId) ?? ask(slot)
    known.set(slot.slotId, found)
    return found
  }
}

/** A free slot as the domain knows it, with what is shown of it. */
interface ShownSlot extends FreeSlot {
  readonly shown: Slot
}

const toFreeSlot = (slot: Slot): ShownSlot => ({
  slotId: slot.id,
  testDayId: slot.testDayId,
  day: slot.on,
  graderId: slot.graderId,
  time: { from: Date.parse(slot.startsAt), to: Date.parse(slot.endsAt) },
  shown: slot,
})
