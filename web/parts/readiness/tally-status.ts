import type { Readiness } from '#contract/standards/certifications.ts'
import { STATES, type State } from '../../ui/state-mark.tsx'

export type StatusTally = Record<State, number>

type Count = Readiness['totals'][number]

export const emptyTally = (): StatusTally => Object.fromEntries(STATES.map((state) => [state, 0])) as StatusTally

/** Adds up the counts of those required to hold a certification, by state. */
export const tallyRequired = (counts: readonly Count[]): StatusTally => {
  const tally = emptyTally()
  for (const { required, status, count } of counts) if (required) tally[status] += count
  return tally
}

export const totalOf = (tally: StatusTally): number => STATES.reduce((sum, state) => sum + tally[state], 0)
