import type { ScoredStandard } from '#scoring/types.ts'
import { type Cell, cellsOf, endedAfter, isBeyondEnd, isMajor, markAt } from './cells.ts'
import type { Draft } from './draft.ts'
import { mark, toggleFault } from './mark-draft.ts'

/** Where one is on the sheet. */
export interface Marking {
  draft: Draft
  /** The place that the next mark goes to, counted in the order of `cellsOf`; their number when all are behind. */
  at: number
  /** The place marked last; faults and readings go there until another one is chosen. */
  last: number | null
}

/** What a key asks for beyond a change of the sheet: to go on typing elsewhere. */
export type Elsewhere = { to: 'readings' } | { to: 'fault-numbers' } | { to: 'at-call'; code: string }

export interface KeyOutcome {
  marking: Marking
  elsewhere?: Elsewhere
}

export const FAULT_KEYS = 'abcdefghijklmnopqrstuvwxyz'

/** The place that faults and readings go to: where one is if that is marked, else the one marked last. */
export const targetOf = ({ draft, at, last }: Marking, cells: readonly Cell[]): number | null => {
  const here = cells[at]
  if (here && markAt(draft, here) !== null) return at
  return last !== null && cells[last] && markAt(draft, cells[last]) !== null ? last : null
}

/**
 * What one key does on the sheet: 1 correct or GO, 0 incorrect or NO-GO and . blank, each moving on; Backspace goes back
 * and blanks; letters note faults by their place in the measure's list; / goes to the numbers of faults, = to the readings; arrows, Home and End move.
 * Null for a key that means nothing here. In: the standard, the state, the key as `KeyboardEvent.key` names it.
 */
export const pressKey = (standard: ScoredStandard, marking: Marking, key: string): KeyOutcome | null => {
  const cells = cellsOf(standard)
  const { draft, at } = marking
  const here = cells[at]

  if (key === '1' || key === '0') {
    if (!here) return null
    const value = key === '1' ? 'correct' : 'incorrect'
    const marked = mark(draft, here, value)
    if (isMajor(here) && value === 'incorrect') {
      return { marking: { draft: marked, at, last: at }, elsewhere: { to: 'at-call', code: here.code } }
    }
    return { marking: { draft: marked, at: nextPlace(standard, marked, cells, at), last: at } }
  }
  if (key === '.' || key === ',') {
    if (!here) return null
    const blanked = mark(draft, here, null)
    return { marking: { draft: blanked, at: nextPlace(standard, blanked, cells, at), last: null } }
  }
  if (key === 'Backspace' || key === 'Delete') {
    if (here && markAt(draft, here) !== null) return { marking: { draft: mark(draft, here, null), at, last: null } }
    const before = cells[at - 1]
    return before ? { marking: { draft: mark(draft, before, null), at: at - 1, last: null } } : null
  }
  if (key === '=') return targetOf(marking, cells) === null ? null : { marking, elsewhere: { to: 'readings' } }
  if (key === '/')
    return targetOf(marking, cells) === null ? { marking } : { marking, elsewhere: { to: 'fault-numbers' } }
  const moved = move(standard, cells, at, key)
  if (moved !== null) return { marking: { draft, at: moved, last: null } }
  return noteFault(standard, marking, cells, key)
}

const nextPlace = (standard: ScoredStandard, draft: Draft, cells: readonly Cell[], at: number): number => {
  const end = endedAfter(draft)
  let next = at + 1
  while (cells[next] && isBeyondEnd(cells[next]!, standard.calls, end)) next++
  return next
}

/** After a major NO-GO and its call: the next place that was reached. */
export const placeAfter = (standard: ScoredStandard, draft: Draft, at: number): number =>
  nextPlace(standard, draft, cellsOf(standard), at)

const move = (standard: ScoredStandard, cells: readonly Cell[], at: number, key: string): number | null => {
  const from = Math.min(at, cells.length - 1)
  const here = cells[from]!
  const majors = standard.majors.length
  const { trials } = standard.rule
  switch (key) {
    case 'ArrowRight':
      return Math.min(cells.length - 1, at + 1)
    case 'ArrowLeft':
      return Math.max(0, at - 1)
    case 'ArrowDown':
    case 'Enter':
      if (!isMajor(here)) return Math.min(cells.length - 1, from + trials)
      return from + 1 < majors ? from + 1 : Math.min(cells.length - 1, majors)
    case 'ArrowUp':
      if (isMajor(here)) return Math.max(0, from - 1)
      return from - trials >= majors ? from - trials : Math.max(0, majors - 1)
    case 'Home':
      return 0
    case 'End':
      return cells.length - 1
    default:
      return null
  }
}

const noteFault = (
  standard: ScoredStandard,
  marking: Marking,
  cells: readonly Cell[],
  key: string,
): KeyOutcome | null => {
  const place = FAULT_KEYS.indexOf(key.toLowerCase())
  const target = targetOf(marking, cells)
  if (key.length !== 1 || place < 0 || target === null) return null
  const cell = cells[target]!
  const measure = (isMajor(cell) ? standard.majors : standard.minors).find(({ code }) => code === cell.code)
  const fault = measure?.faults[place]
  return fault ? { marking: { ...marking, draft: toggleFault(marking.draft, cell, fault.code) } } : null
}
