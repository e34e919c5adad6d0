import { addDays, daysBetween, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { instantAt } from '../zoned-time.ts'
import { isBeforeToday, type Program } from './program.ts'

const MINUTE = 60_000
/** Share of sheets on paper when the program began, and by now. */
const PAPER_AT_FIRST = 0.6
const PAPER_NOW = 0.08
const NO_SIGNAL = 0.2
const LONG_ON_A_DESK = 0.04

/** How a sheet comes in. */
export interface Arrival {
  readonly isPaper: boolean
  /** Milliseconds since 1970; before the day the demo is loaded. */
  readonly at: number
}

/** On a device a few minutes after the test, or in the evening where there was no signal; on paper some days later. */
export function drawArrival(program: Program, day: PlainDate, finishedAt: number): Arrival {
  const { random, start, today, timeZone } = program
  const age = Math.min(1, (2 * daysBetween(start, day)) / daysBetween(start, today))
  if (random.chance(PAPER_AT_FIRST + (PAPER_NOW - PAPER_AT_FIRST) * age)) {
    const days = random.chance(LONG_ON_A_DESK) ? random.integer(8, 20) : random.integer(1, 4)
    return { isPaper: true, at: inOffice(program, addDays(day, days)) ?? finishedAt + random.integer(60, 120) * MINUTE }
  }
  const evening = instantAt(day, 17 * 60 + random.integer(0, 30), timeZone)
  return { isPaper: false, at: random.chance(NO_SIGNAL) ? evening : finishedAt + random.integer(1, 5) * MINUTE }
}

/** Some time of a day when the office works; null for days that have not been. */
export function inOffice(program: Program, day: PlainDate): number | null {
  const at = instantAt(day, 9 * 60, program.timeZone) + program.random.integer(0, 7 * 3600) * 1000
  return isBeforeToday(program, at) ? at : null
}
