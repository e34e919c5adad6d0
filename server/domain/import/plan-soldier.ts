import type { PlainDate } from '../calendar/plain-date.ts'
import { type SoldierChange, type SoldierPeriod, soldierPeriods } from '../people/soldier-periods.ts'

/** What a row says of a soldier from a day on; undefined: as before. */
export interface RosterRow {
  readonly from: PlainDate
  readonly grade?: string | undefined
  readonly arms?: readonly string[] | undefined
  readonly unitId?: string | undefined
  readonly left?: string | undefined
}

type NewChange = Omit<SoldierChange, 'entry'>

export interface SoldierPlan {
  /** The changes to be entered, by the row that makes them; rows that say what is known make none. */
  readonly changes: readonly { readonly row: number; readonly change: NewChange; readonly before: State | null }[]
  /** How the soldier's time in the strength comes out. */
  readonly periods: readonly SoldierPeriod[]
  /** Why it cannot be, with the row to blame. */
  readonly wrong: { readonly row: number; readonly detail: string } | null
}

interface State {
  readonly grade: string
  readonly arms: readonly string[]
  readonly unitId: string | null
  readonly left: string | null
}

/**
 * Works out which changes rows about one soldier add to those that are known. A row that says what holds on its day
 * anyway adds nothing, so that the same rows again change nothing.
 * In: the known changes; rows by day, each with its number. Grade and unit must be known from the first day on.
 */
export function planSoldier(
  known: readonly SoldierChange[],
  rows: readonly (RosterRow & { readonly row: number })[],
): SoldierPlan {
  const all = [...known]
  const changes: { row: number; change: NewChange; before: State | null }[] = []
  let entry = Math.max(0, ...known.map((change) => change.entry))
  for (const { row, from, grade, arms, unitId, left } of rows) {
    const before = stateOn(all, from)
    const change = {
      from,
      grade: grade === undefined || grade === before?.grade ? null : grade,
      arms: arms === undefined || (before && sameArms(arms, before.arms)) ? null : arms,
      unitId: unitId === undefined || (unitId === before?.unitId && !before.left) ? null : unitId,
      left: left === undefined || before?.left === left ? null : left,
    }
    if (change.grade === null && change.arms === null && change.unitId === null && change.left === null) continue
    entry += 1
    all.push({ ...change, entry })
    changes.push({ row, change, before })
  }
  const first = [...all].sort((a, b) => (a.from === b.from ? a.entry - b.entry : a.from < b.from ? -1 : 1))[0]
  const blamed = changes[0]?.row ?? rows[0]!.row
  if (!first || first.grade === null || first.unitId === null) {
    const detail =
      known.length > 0
        ? 'This lies before the soldier joined: give grade and unit too.'
        : 'Somebody new needs grade and unit on their first day.'
    return { changes: [], periods: [], wrong: { row: blamed, detail } }
  }
  const periods = soldierPeriods(all)
  const wrong =
    periods.length > 0
      ? null
      : { row: blamed, detail: 'The soldier would leave on the day they joined; give a later day.' }
  return { changes, periods, wrong }
}

/** What holds on a day by the changes so far; null before the first. */
function stateOn(changes: readonly SoldierChange[], day: PlainDate): State | null {
  const past = changes.filter(({ from }) => from <= day)
  if (past.length === 0) return null
  past.sort((a, b) => (a.from === b.from ? a.entry - b.entry : a.from < b.from ? -1 : 1))
  let state: State = { grade: '', arms: [], unitId: null, left: null }
  for (const { grade, arms, unitId, left } of past) {
    state = {
      grade: grade ?? state.grade,
      arms: arms ?? state.arms,
      unitId: left === null ? (unitId ?? state.unitId) : null,
      left: left ?? (unitId === null ? state.left : null),
    }
  }
  return state
}

const sameArms = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && [...a].sort().join('\n') === [...b].sort().join('\n')
