import { addDays, type PlainDate } from '../calendar/plain-date.ts'

/** A fact about a soldier from a day on; what is null stays as it was. */
export interface SoldierChange {
  readonly from: PlainDate
  readonly grade: string | null
  readonly arms: readonly string[] | null
  readonly unitId: string | null
  readonly left: string | null
  /** Orders changes of one day. */
  readonly entry: number
}

export interface SoldierPeriod {
  readonly from: PlainDate
  readonly through: PlainDate | null
  readonly unitId: string
  readonly grade: string
  readonly arms: readonly string[]
}

/**
 * A soldier's time in the strength as periods of one unit, grade and list of arms, worked out from all changes in order
 * of day, then entry. Leaving ends the strength on the day before; a later change that names a unit begins it anew.
 * In: changes in any order, the first by day naming a unit and a grade. Out: periods in order, never overlapping.
 */
export function soldierPeriods(changes: readonly SoldierChange[]): SoldierPeriod[] {
  const inOrder = [...changes].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.entry - b.entry))
  const periods: SoldierPeriod[] = []
  let unitId: string | null = null
  let grade = ''
  let arms: readonly string[] = []
  inOrder.forEach((change, index) => {
    grade = change.grade ?? grade
    arms = change.arms ?? arms
    unitId = change.left === null ? (change.unitId ?? unitId) : null
    const next = inOrder[index + 1]
    if (unitId === null || next?.from === change.from) return
    const last = periods.at(-1)
    const through = next ? addDays(next.from, -1) : null
    if (
      last &&
      last.through !== null &&
      addDays(last.through, 1) === change.from &&
      isSame(last, { unitId, grade, arms })
    ) {
      periods[periods.length - 1] = { ...last, through }
    } else periods.push({ from: change.from, through, unitId, grade, arms })
  })
  return periods
}

function isSame(
  a: Pick<SoldierPeriod, 'unitId' | 'grade' | 'arms'>,
  b: Pick<SoldierPeriod, 'unitId' | 'grade' | 'arms'>,
) {
  return a.unitId === b.unitId && a.grade === b.grade && a.arms.join('\n') === b.arms.join('\n')
}
