import type { WaitingAward } from '#contract/readiness/commanders-words.ts'
import { formatDay } from '../../../words/format-day.ts'
import { countedInWords } from '../../../words/format-number.ts'

/** "Three certifications wait for a signature, the first since 3 March." */
export const formatWaiting = (items: readonly WaitingAward[], more: boolean, today: string): string => {
  const [first] = items
  if (!first) return 'Nothing waits for a signature.'
  const count = countedInWords(items.length, 'certification')
  const since = `since ${formatDay(first.awardedOn, today)}`
  if (items.length === 1 && !more) return `One certification waits for a signature, ${since}.`
  const [text, word] = more ? [`More than ${count}`, 'wait'] : [count, 'wait']
  return `${text.charAt(0).toUpperCase()}${text.slice(1)} ${word} for a signature, the first ${since}.`
}

/** From when a certification is in force if it is signed today, and through when. */
export const formatForce = ({ inForceFrom, validThrough }: WaitingAward, today: string): string => {
  if (validThrough < today) return `its time ended on ${formatDay(validThrough, today)}`
  const from = inForceFrom === today ? 'from today' : `from ${formatDay(inForceFrom, today)}`
  return `${from} through ${formatDay(validThrough, today)}`
}
