import type { Effect } from '#contract/standards/effects.ts'
import { formatDay } from '../../words/format-day.ts'
import { capital, counted } from '../../words/format-number.ts'

type Stands = Effect['items'][number]['before']

/** "Nobody would stand otherwise on Monday 15 June." */
export const formatEffect = ({ counts }: Effect, day: string): string => {
  const all = counts.reduce((sum, { count }) => sum + count, 0)
  return all === 0 ? `No standing would change on ${day}.` : `${counted(all, 'standing')} would change on ${day}.`
}

const required = (is: boolean): string => (is ? 'required' : 'not required')

/** "Sword: 12 from certified to lapsed". */
export const formatEffectCount = (count: Effect['counts'][number], title: string): string => {
  const { before, after, requiredBefore, requiredAfter } = count
  const status =
    before === after
      ? before === null
        ? ''
        : `${before} still`
      : `from ${before ?? 'not there'} to ${after ?? 'not there'}`
  const need = requiredBefore === requiredAfter ? '' : `from ${required(requiredBefore)} to ${required(requiredAfter)}`
  const end = before === after && requiredBefore === requiredAfter ? 'with another last day' : ''
  return `${title}: ${count.count} ${[status, need, end].filter(Boolean).join(', ')}`
}

/** "Certified through 2 May, required". */
export const formatStands = (stands: Stands, today: string): string =>
  stands === null
    ? '–'
    : `${capital(stands.status)}${stands.validThrough ? ` through ${formatDay(stands.validThrough, today)}` : ''}, ${required(stands.required)}`
