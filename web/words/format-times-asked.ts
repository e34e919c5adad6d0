import { addDays } from '#calendar/plain-date.ts'
import { clockChange, zonedInstant } from '#calendar/zoned-instant.ts'
import { formatDay } from './format-day.ts'

interface Times {
  day: string
  /** "19:40", as far as typed. */
  from: string
  to: string
  zone: string
  today: string
}

const MINUTE = 60_000

/**
 * What has to be asked about the times of something on a day, each so that yes means them: an end that is not after the
 * start, a day that is past, a clock time that the change of clocks leaves out or brings twice.
 */
export function formatTimesAsked({ day, from, to, zone, today }: Times): string[] {
  if (day === '') return []
  const asked = day < today ? [`${formatDay(day, today)} is past. It took place then.`] : []
  for (const clock of new Set([from, to])) {
    const change = formatClockChange(day, clock, zone)
    if (change) asked.push(change)
  }
  if (from !== '' && to !== '' && to <= from) {
    const next = addDays(day, 1)
    const minutes = (Date.parse(zonedInstant(next, to, zone)) - Date.parse(zonedInstant(day, from, zone))) / MINUTE
    const long = `${Math.floor(minutes / 60)} h ${minutes % 60} min`
    asked.push(`${to} is not after ${from}. It ends on the next day, ${formatDay(next, today)}, and lasts ${long}.`)
  }
  return asked
}

/** What becomes of a clock time ("02:30") that the change of clocks leaves out or brings twice; undefined where it does neither. */
export function formatClockChange(day: string, clock: string, zone: string): string | undefined {
  const change = day === '' || clock === '' ? null : clockChange(day, clock, zone)
  if (change === 'left out') {
    return `The clocks are put forward that day, and there is no ${clock}: ${zonedInstant(day, clock, zone).slice(11, 16)} is meant.`
  }
  return change === 'twice'
    ? `The clocks are put back that day, and ${clock} comes twice: the first is meant.`
    : undefined
}
