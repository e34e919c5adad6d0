import { daysBetween } from '#calendar/plain-date.ts'
import type { Readiness } from '#contract/standards/certifications.ts'
import { sayDay } from '../../words/say-day.ts'
import { counted, listed } from '../../words/say-number.ts'

type Item = Readiness['items'][number]

/** A lapse within so many days after the day asked for is worth a word. */
const SOON_DAYS = 45

/** What else there is to know about one row: what is in, which retest is open, when it lapses, that it is not required. */
export const sayNote = (item: Item, asOf: string, today: string, titleOf: (standard: string) => string): string => {
  const notes: string[] = []
  if (item.status === 'certified' && item.validThrough) {
    const left = daysBetween(asOf, item.validThrough)
    if (left === 0) notes.push('last day')
    else if (left <= SOON_DAYS) notes.push(`lapses ${counted(left, 'day')} after`)
  }
  for (const { standard, countsUntil } of item.toward) {
    if (item.status !== 'certified') notes.push(`${titleOf(standard)} in, counts until ${sayDay(countsUntil, today)}`)
  }
  if (item.retestOpen.length > 0) notes.push(`retest open: ${listed(item.retestOpen.map(titleOf))}`)
  if (!item.required) notes.push('not required')
  return notes.join('; ')
}
