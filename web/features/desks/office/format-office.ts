import type { TestDay } from '#contract/test-days/test-days.ts'
import { formatDayInFull } from '../../../words/format-day.ts'
import { capital, counted, inWords, plural } from '../../../words/format-number.ts'

/** The answer on the office's desk. In: test days ahead in order, open retests, free slots ahead, today. */
export const formatOffice = (days: readonly TestDay[], open: number, free: number, today: string): string => {
  const backlog =
    open === 0 ? 'No retest is open' : `${capital(inWords(open))} ${plural(open, 'retest is', 'retests are')} open`
  const next = days[0]
  if (!next) return `${backlog}, and no test day is planned.`
  const room = free === 0 ? 'no slot is free' : `${counted(free, 'slot')} ${plural(free, 'is', 'are')} free`
  return `${backlog}; ${room}. Next test day: ${next.on === today ? 'today' : formatDayInFull(next.on, today)}.`
}
