import type { Trigger } from '../../assessment/services/settle.ts'

export type Triggers = readonly Trigger[]

/** One trigger a soldier: all new sheets, and the earliest day. */
export function mergeTriggers(all: Triggers): Triggers {
  const merged = new Map<string, Trigger>()
  for (const one of all) {
    const known = merged.get(one.soldierId)
    const days = [known?.qualifiesAnewFrom, one.qualifiesAnewFrom].filter((day) => day !== undefined).sort()
    merged.set(one.soldierId, {
      soldierId: one.soldierId,
      newSheets: [...(known?.newSheets ?? []), ...(one.newSheets ?? [])],
      ...(days[0] === undefined ? {} : { qualifiesAnewFrom: days[0] }),
    })
  }
  return [...merged.values()]
}
