import type { Disturbance } from '../../assessment/services/settle.ts'

export type Disturbances = readonly Disturbance[]

/** One disturbance a soldier: all new sheets, and the earliest day. */
export function mergeDisturbances(all: Disturbances): Disturbances {
  const merged = new Map<string, Disturbance>()
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
