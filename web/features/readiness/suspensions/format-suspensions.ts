import type { Suspension } from '#contract/readiness/suspensions.ts'
import { formatDay } from '../../../words/format-day.ts'
import { capital, countedInWords, plural } from '../../../words/format-number.ts'

/** How many are in force; `more`: the list goes on. */
export const formatInForceNow = (items: readonly Suspension[], more: boolean): string => {
  const count = items.filter(({ inForce }) => inForce).length
  if (count === 0) return 'No suspension is in force.'
  if (more && count === items.length) return `More than ${countedInWords(count, 'suspension')} are in force.`
  return capital(`${countedInWords(count, 'suspension')} ${plural(count, 'is', 'are')} in force.`)
}

/** "since 3 Oct", "from Sat 5 Dec", "3 Oct to 1 Nov": the first day, and the last on which it was in force. */
export const formatSpan = ({ from, lift, inForce }: Suspension, today: string): string => {
  if (lift !== null) return `${formatDay(from, today)}, lifted ${formatDay(lift, today)}`
  return `${inForce ? 'since' : 'from'} ${formatDay(from, today)}`
}
