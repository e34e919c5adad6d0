import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import { dayInZone } from '../../../server/domain/calendar/day-in-zone.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { laterDay } from '../day-order.ts'
import { randomUuid } from '../random-uuid.ts'
import { dispute, enterMiswritten } from './amendments.ts'
import { applyFlaw } from './apply-flaw.ts'
import { drawArrival, mislay } from './arrivals.ts'
import { forget, learn } from './chances.ts'
import type { ConductedTest } from './conduct-test.ts'
import { drawFlaw } from './draw-flaw.ts'
import { planAfterAttempt, planAgain } from './next-try.ts'
import type { Program } from './program.ts'
import type { Seat } from './seats.ts'
import { settleFlaw } from './settle-flaw.ts'
import { gradeTwice } from './side-sheets.ts'
import { standingOn } from './training.ts'

const AMENDED = 0.008
const GRADED_TWICE = 0.035

/** Enters the sheet of a test with all that comes of it, and plans what the candidate does next. */
export function recordTest(program: Program, day: PlainDate, seat: Seat, test: ConductedTest): void {
  const { random, events } = program
  const { training, standard } = seat
  const id = randomUuid(random)
  const before = events.length
  const flaw = drawFlaw(program, day, seat, test)
  const foundAt = flaw === null ? mislay(program, day, training, test) : null
  const at = foundAt ?? drawArrival(program, day, Date.parse(test.body.finishedAt))
  const flawed = flaw && applyFlaw(program, flaw, test.body, seat, day)
  let stands: 'counted' | 'held' | 'rejected' = 'counted'
  let body: SheetBody = test.body
  let deviceTime = at
  if (flaw && flawed) {
    body = flawed.body
    deviceTime += flawed.skew
    stands = settleFlaw(program, flaw, { id, at, right: test.body })
  } else if (test.ending === 'completed' && foundAt === null) {
    if (random.chance(AMENDED)) body = enterMiswritten(program, test.standard, { id, at, right: test.body })
    else if (program.undecided.has('amendment')) dispute(program, test.standard, { id, at, right: test.body })
    else if (random.chance(GRADED_TWICE)) gradeTwice(program, day, seat, test, id, at)
  }
  events.push({ kind: 'sheet', at, id, body, deviceTime, stands })
  const settledAt = Math.max(...events.slice(before).map((event) => event.at))
  training.settledOn = laterDay(training.settledOn, dayInZone(settledAt, program.timeZone))
  if (test.outcome !== 'VOID') learn(training, standard, test.failed)
  if (stands === 'held') training.nextTry.clear()
  else if (stands === 'rejected' || test.outcome === 'VOID') planAgain(program, training, standard, day)
  else attempted(program, day, seat, id, test)
  if (foundAt !== null) training.nextTry.set(standard, addDays(day, 1))
}

function attempted(
  program: Program,
  day: PlainDate,
  { training, standard }: Seat,
  id: string,
  test: ConductedTest,
): void {
  const { standardVersion: version, arm, finishedAt } = test.body
  const outcome = test.outcome as 'GO' | 'NO-GO'
  const attempt = { id, standard, version, arm, finishedAt: Date.parse(finishedAt), day, outcome }
  training.history.attempts.push(attempt)
  if (standingOn(training, day).awardedOn === day) forget(training)
  planAfterAttempt(program, training, standard, day)
}
