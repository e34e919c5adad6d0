import type { TestDay } from '#contract/test-days/test-days.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { capital, counted, figure, inWords, plural } from '../../words/format-number.ts'

/** How a test day stands: "called off: storm", "today", "planned", "12 sheets". */
export const formatDayState = ({ calledOff, on, sheets }: TestDay, today: string): string => {
  if (calledOff) return `called off: ${calledOff.reason}`
  if (on === today) return 'today'
  return on > today ? 'planned' : `${counted(sheets, 'sheet')} taken`
}

/** The answer of the list: how many are ahead and what room they have. Days ahead come in order, past ones latest first. */
export const formatAhead = (days: readonly TestDay[], isPast: boolean, today: string): string => {
  const on = days.filter(({ calledOff }) => !calledOff)
  if (isPast) {
    const past = `${capital(inWords(on.length))} test ${plural(on.length, 'day')} took place`
    const off = days.length - on.length
    return off === 0 ? `${past}.` : `${past}; ${inWords(off)} ${plural(off, 'was', 'were')} called off.`
  }
  const next = on[0]
  if (!next) return 'No test day is planned.'
  const free = on.reduce((sum, { freeSlots }) => sum + freeSlots, 0)
  const ahead = `${capital(inWords(on.length))} test ${plural(on.length, 'day is', 'days are')} ahead`
  return `${ahead}, with ${free === 0 ? 'no free slot' : counted(free, 'free slot')}. The next is ${next.on === today ? 'today' : formatDayInFull(next.on, today)}.`
}

/** The answer on one test day. */
export const formatTestDay = (day: TestDay, today: string): string => {
  const when = day.on === today ? 'Today' : formatDayInFull(day.on, today)
  if (day.calledOff) return `${when} was called off.`
  if (day.slots === 0) return `${when}: no slots are made yet.`
  const free =
    day.freeSlots === 0
      ? 'none is free'
      : `${figure(day.freeSlots)} ${plural(day.freeSlots, 'is', 'are')} ${day.on === today ? 'still to come and free' : 'free'}`
  return `${when}: ${counted(day.slots, 'slot')}, ${free}.`
}
