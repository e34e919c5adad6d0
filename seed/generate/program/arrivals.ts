import { addDays, daysBetween, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { instantInZone } from '../../../server/domain/calendar/zoned-instant.ts'
import { isSeason } from '../test-calendar.ts'
import type { ConductedTest } from './conduct-test.ts'
import { isBeforeToday, type Program } from './program.ts'
import type { Training } from './training.ts'

const MINUTE = 60_000
/** Share of sheets on paper when the program began, and by now. */
const PAPER_AT_FIRST = 0.6
const PAPER_NOW = 0.08
const NO_SIGNAL = 0.2
const LONG_ON_A_DESK = 0.04
const MISLAID = 0.05
const MOST_MISLAID = 6

/**
 * When a sheet comes in, in milliseconds since 1970, before the day the demo is loaded: from a device some minutes after
 * the test, or in the evening where there was no signal; on paper some days later.
 */
export function drawArrival(program: Program, day: PlainDate, finishedAt: number): number {
  const { random, start, today, timeZone } = program
  const age = Math.min(1, (2 * daysBetween(start, day)) / daysBetween(start, today))
  if (random.chance(PAPER_AT_FIRST + (PAPER_NOW - PAPER_AT_FIRST) * age)) {
    const days = random.chance(LONG_ON_A_DESK) ? random.integer(8, 20) : random.integer(1, 4)
    return inOffice(program, addDays(day, days)) ?? finishedAt + random.integer(60, 120) * MINUTE
  }
  const evening = instantInZone(day, 17 * 60 + random.integer(0, 30), timeZone)
  return random.chance(NO_SIGNAL) ? evening : finishedAt + random.integer(1, 5) * MINUTE
}

/** Now and then the paper sheet of a NO-GO is found only after a month, in the season. Out: when; null: it is not lost. */
export function mislay(program: Program, day: PlainDate, training: Training, test: ConductedTest): number | null {
  const { random, today, mislaid } = program
  const isNoGo = test.ending === 'completed' && test.outcome === 'NO-GO'
  if (!isNoGo || !isSeason(day) || mislaid.size === MOST_MISLAID || mislaid.has(training) || training.settledOn >= day)
    return null
  if (daysBetween(day, today) < 60 || !random.chance(MISLAID)) return null
  mislaid.add(training)
  return inOffice(program, addDays(day, random.integer(27, 32)))
}

/** Some time of a day when the office works; null for days that have not been. */
export function inOffice(program: Program, day: PlainDate): number | null {
  const at = instantInZone(day, 9 * 60, program.timeZone) + program.random.integer(0, 7 * 3600) * 1000
  return isBeforeToday(program, at) ? at : null
}
