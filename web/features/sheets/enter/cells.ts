import type { ScoredStandard } from '#scoring/types.ts'
import { BLANK_MAJOR, type Draft } from './draft.ts'

/** A place on the sheet that takes one mark: a major measure (trial 0) or one trial of a minor one. */
export interface Cell {
  code: string
  trial: number
}

export const isMajor = ({ trial }: Cell): boolean => trial === 0

interface Lines {
  readonly majors: readonly { readonly code: string }[]
  readonly minors: readonly { readonly code: string }[]
  readonly rule: { readonly trials: number }
}

/** The places in the order in which a paper sheet is read: majors, then measure by measure. */
export const cellsOf = ({ majors, minors, rule }: Lines): Cell[] => [
  ...majors.map(({ code }) => ({ code, trial: 0 })),
  ...minors.flatMap(({ code }) => Array.from({ length: rule.trials }, (_, index) => ({ code, trial: index + 1 }))),
]

/** The number of calls after which the test ended by a major NO-GO; null while it did not, or the number is not typed yet. */
export const endedAfter = (draft: Pick<Draft, 'majors'>): number | null => {
  const ends = Object.values(draft.majors)
    .filter(({ mark, atCall }) => mark === 'NO-GO' && /^\d+$/.test(atCall.trim()))
    .map(({ atCall }) => Number(atCall))
  return ends.length === 0 ? null : Math.min(...ends)
}

/** Was this trial never reached, the test having ended before its call? */
export const isBeyondEnd = (cell: Cell, calls: ScoredStandard['calls'], end: number | null): boolean => {
  if (end === null || isMajor(cell)) return false
  const call = calls.findIndex(({ measure, trial }) => measure === cell.code && trial === cell.trial)
  return call >= end
}

/** The mark at a place: GO is told as correct, NO-GO as incorrect. */
export const markAt = (draft: Pick<Draft, 'majors' | 'minors'>, cell: Cell): 'correct' | 'incorrect' | null => {
  if (!isMajor(cell)) return draft.minors[cell.code]?.trials[cell.trial - 1] ?? null
  const { mark } = draft.majors[cell.code] ?? BLANK_MAJOR
  return mark === 'GO' ? 'correct' : mark === 'NO-GO' ? 'incorrect' : null
}

/** The codes of the faults noted at a place. */
export const faultsAt = (draft: Pick<Draft, 'majors' | 'minors'>, cell: Cell): string[] =>
  isMajor(cell)
    ? (draft.majors[cell.code]?.faults ?? [])
    : (draft.minors[cell.code]?.faults ?? []).filter(({ trial }) => trial === cell.trial).map(({ code }) => code)
