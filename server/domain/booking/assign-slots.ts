import { overlap } from './time-conflicts.ts'
import type { BookingConflict, BookingPlace, ConflictWeight } from './types.ts'

/** A free slot. */
export interface FreeSlot extends BookingPlace {
  readonly slotId: string
  readonly time: NonNullable<BookingPlace['time']>
}

/** Somebody who needs a slot; the ones named first come first. */
export interface SlotSeeker {
  readonly key: string
  readonly candidateId: string
  readonly conflictsAt: (slot: FreeSlot) => readonly BookingConflict[]
}

/**
 * Who gets which free slot. No slot is given twice, none where it is refused, and nobody gets two at a time. As many are
 * placed as can be: first without anything that would hold the sheet, then the others; in each by how little stands in the
 * way, then the earliest. A candidate's further tests come after everybody's first, in what is left then.
 * In: slots in any order. Out: the slot of each seeker that has one, by key.
 */
export function assignSlots(seekers: readonly SlotSeeker[], free: readonly FreeSlot[]): Map<string, FreeSlot> {
  const slots = [...free].sort((a, b) => a.time.from - b.time.from || (a.slotId < b.slotId ? -1 : 1))
  const firsts = seekers.filter(
    (one, at) => seekers.findIndex(({ candidateId }) => candidateId === one.candidateId) === at,
  )
  const given = matchedSlots(firsts, slots)
  const owners = new Map(seekers.map(({ key, candidateId }) => [key, candidateId]))
  for (const seeker of seekers.filter((one) => !firsts.includes(one))) {
    const taken = [...given.values()]
    const own = [...given].filter(([key]) => owners.get(key) === seeker.candidateId).map(([, slot]) => slot)
    const left = slots.filter((slot) => !taken.includes(slot) && !own.some(({ time }) => overlap(time, slot.time)))
    const best = choicesOf(seeker, left)[0]
    if (best) given.set(seeker.key, best.slot)
  }
  return given
}

interface Choice {
  readonly slot: FreeSlot
  readonly worst: number
}

/** The slots that a seeker can have, best first. */
function choicesOf({ conflictsAt }: SlotSeeker, slots: readonly FreeSlot[]): Choice[] {
  return slots
    .map((slot) => ({ slot, worst: worstOf(conflictsAt(slot)) }))
    .filter(({ worst }) => worst < WEIGHT.blocks)
    .sort((a, b) => a.worst - b.worst)
}

const WEIGHT: Record<ConflictWeight, number> = { warns: 1, holds: 2, blocks: 3 }

const worstOf = (conflicts: readonly BookingConflict[]): number =>
  Math.max(0, ...conflicts.map(({ weight }) => WEIGHT[weight]))

/**
 * A maximum matching by augmenting paths (Kuhn), over the choices that hold no sheet first and then over all. Whoever has
 * a slot gives it up for another only where somebody would be left without one.
 */
function matchedSlots(seekers: readonly SlotSeeker[], slots: readonly FreeSlot[]): Map<string, FreeSlot> {
  const choices = new Map(seekers.map((seeker) => [seeker.key, choicesOf(seeker, slots)]))
  const holder = new Map<FreeSlot, string>()
  const place = (key: string, limit: number, tried: Set<FreeSlot>): boolean => {
    const open = choices.get(key)!.filter(({ slot, worst }) => worst <= limit && !tried.has(slot))
    const unheld = open.find(({ slot }) => !holder.has(slot))
    if (unheld) return Boolean(holder.set(unheld.slot, key))
    return open.some(({ slot }) => {
      if (tried.has(slot)) return false
      tried.add(slot)
      return place(holder.get(slot)!, limit, tried) && Boolean(holder.set(slot, key))
    })
  }
  for (const limit of [WEIGHT.warns, WEIGHT.holds]) {
    const placed = new Set(holder.values())
    for (const { key } of seekers) if (!placed.has(key)) place(key, limit, new Set())
  }
  return new Map([...holder].map(([slot, key]) => [key, slot]))
}
