import type { Unit } from '#contract/soldiers/soldiers.ts'
import { formatDay } from '../../../words/format-day.ts'
import { capital, countedInWords } from '../../../words/format-number.ts'

/** What the levels of the tree are called. */
export const LEVELS: Record<Unit['kind'], string> = {
  unit: 'Unit at the top, or between',
  company: 'Company, flight or the like',
  platoon: 'Platoon, squad or team',
}

/** "closed from 1 Jun", or "closes on 1 Jun" before that day. */
export const formatClosed = (from: string, today: string): string =>
  from <= today ? `closed from ${formatDay(from, today)} on` : `closes on ${formatDay(from, today)}`

/** "Seven units, one of them at the top." */
export const formatUnits = (units: readonly Unit[]): string => {
  if (units.length === 0) return 'There is no unit yet: begin with the one at the top.'
  const tops = units.filter(({ parentId }) => parentId === null).length
  const at = tops === units.length ? '' : `, ${countedInWords(tops, 'of them', 'of them')} at the top`
  return capital(`${countedInWords(units.length, 'unit')}${at}.`)
}
