import type { PlainDate } from '../calendar/plain-date.ts'
import { type SoldierChange, type SoldierPeriod, soldierPeriods } from './soldier-periods.ts'

/** A soldier's changes and periods once their unit is another one from a day on. */
export interface CarriedOver {
  /** Null: nothing to enter beside the changes that name the new unit instead. */
  readonly entered: Omit<SoldierChange, 'entry'> | null
  readonly periods: readonly SoldierPeriod[]
}

/**
 * What becomes of a soldier where units are gone on with by others from a day on. In: the soldier's changes; by unit the
 * one that goes on from it; the day. Changes from that day on that name an old unit name the new one instead; whoever is
 * in an old one on the day by an earlier change enters the new one that day. Days before stay as they were.
 */
export function carryOver(
  changes: readonly SoldierChange[],
  goesOnAs: ReadonlyMap<string, string>,
  from: PlainDate,
): CarriedOver {
  const renamed = changes.map((change) =>
    change.unitId === null || change.from < from
      ? change
      : { ...change, unitId: goesOnAs.get(change.unitId) ?? change.unitId },
  )
  const onDay = soldierPeriods(renamed).find(
    (period) => period.from <= from && (period.through === null || period.through >= from),
  )
  const unitId = onDay && goesOnAs.get(onDay.unitId)
  if (unitId === undefined) return { entered: null, periods: soldierPeriods(renamed) }
  const entered = { from, unitId, grade: null, arms: null, left: null }
  const last = Math.max(...changes.map(({ entry }) => entry))
  return { entered, periods: soldierPeriods([...renamed, { ...entered, entry: last + 1 }]) }
}
