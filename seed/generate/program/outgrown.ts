import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { placeOn } from './person.ts'
import { morningOf, type Program } from './program.ts'
import { endCoaching } from './sponsors.ts'
import { isWantedOn, retestsOn } from './training.ts'

const REASON = 'Promoted; the certification is not asked of the new grade.'

/** Ends the training of those whose grade no longer asks for it, so that no retest is waited for that nobody will take. */
export function endOutgrown(program: Program, day: PlainDate): void {
  for (const training of [...program.trainings.values()].flat()) {
    const { person, certification, history, nextTry } = training
    if (nextTry.size === 0 || placeOn(person, day) === null || isWantedOn(training, day)) continue
    if (person.periods.some(({ from }) => from > day && isWantedOn(training, from))) continue
    nextTry.clear()
    endCoaching(training, day)
    if (retestsOn(training, day).length === 0) continue
    history.withdrawals.push(day)
    const body = { certification: certification.code, on: day, reason: REASON }
    program.events.push({ kind: 'withdrawal', at: morningOf(program, day), soldier: person.key, body })
  }
}
