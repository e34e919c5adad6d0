import { addDays, type PlainDate } from '../calendar/plain-date.ts'
import { type SoldierChange, type SoldierPeriod, soldierPeriods } from './soldier-periods.ts'

/** A change without its place in the order of entry: it is entered after all others. */
export type AdoptedChange = Omit<SoldierChange, 'entry'>

/**
 * What a soldier who was entered twice has to be given, so that the entry that is kept also covers the days on which only
 * the other one was of the strength. On days of both, what is kept holds.
 * In: the changes of both. Out: changes to enter for the kept one after its own, by day; none where nothing is missing.
 */
export function adoptChanges(kept: readonly SoldierChange[], away: readonly SoldierChange[]): AdoptedChange[] {
  const ofKept = soldierPeriods(kept)
  const missing = soldierPeriods(away).flatMap((period) => without(period, ofKept))
  const days = new Set<PlainDate>()
  for (const { from, through } of missing) {
    days.add(from)
    for (const change of kept) if (covers({ from, through }, change.from)) days.add(change.from)
    if (through !== null) days.add(addDays(through, 1))
  }
  // Whoever returns keeps grade and arms unless told otherwise: those from before, and not the adopted ones.
  ofKept.forEach(({ from }, index) => {
    const before = ofKept[index - 1]
    const returns = !before?.through || addDays(before.through, 1) < from
    if (returns && missing[0] && missing[0].from < from) days.add(from)
  })
  return [...days].sort().map((day) => {
    const period = [...missing, ...ofKept].find((one) => covers(one, day))
    if (period) {
      const { unitId, grade, arms } = period
      return { from: day, unitId, grade, arms, left: null }
    }
    const left = away.findLast((change) => change.from === day && change.left !== null)?.left ?? 'other'
    return { from: day, unitId: null, grade: null, arms: null, left }
  })
}

const covers = ({ from, through }: Pick<SoldierPeriod, 'from' | 'through'>, day: PlainDate): boolean =>
  from <= day && (through === null || day <= through)

/** What is left of a period without the days of others, which are in order and do not overlap. */
function without(period: SoldierPeriod, others: readonly SoldierPeriod[]): SoldierPeriod[] {
  const pieces: SoldierPeriod[] = []
  let from: PlainDate | null = period.from
  for (const other of others) {
    if (from === null || (period.through !== null && other.from > period.through)) break
    if (other.through !== null && other.through < from) continue
    if (other.from > from) pieces.push({ ...period, from, through: addDays(other.from, -1) })
    from = other.through === null ? null : addDays(other.through, 1)
  }
  if (from !== null && (period.through === null || from <= period.through)) pieces.push({ ...period, from })
  return pieces
}
