import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { laterDay } from '../day-order.ts'
import type { Random } from '../random.ts'
import { companyPace } from './person.ts'
import { morningOf, type Program } from './program.ts'
import { endCoaching } from './sponsors.ts'
import { retestsOn, standingOn, type Training } from './training.ts'

/** Days of training until somebody new is tested. */
const TRAINING: readonly [number, number] = [45, 140]
/** Days to the other standard of a certification. */
const OTHER_STANDARD: readonly [number, number] = [0, 32]
const TEST_AGAIN: readonly [number, number] = [1, 9]
/** Days a sponsor stays with a candidate who has passed. */
const SPONSOR_STAYS: readonly [number, number] = [0, 6]
/** Who has failed so often in a row leaves training. */
const GIVES_UP_AFTER = 4
const GIVES_UP = 0.6

const within = (random: Random, [from, to]: readonly [number, number]): number => random.integer(from, to)

/** Plans the first tests of somebody who needs the certification from a day on. */
export function planFirstTests({ random }: Program, training: Training, from: PlainDate): void {
  const ready = addDays(from, Math.round(within(random, TRAINING) * companyPace(training.person, from)))
  planFrom(random, training, ready)
}

/** Plans the tests that renew a certification valid through a day: mostly in time, some too late, a few not at all. */
export function planRenewal({ random }: Program, training: Training, validThrough: PlainDate): void {
  training.nextTry.clear()
  const lead = random.weighted([
    [random.integer(15, 50), 0.3],
    [random.integer(-5, 15), 0.18],
    [-random.integer(5, 50), 0.2],
    [-random.integer(50, 170), 0.26],
    [null, 0.06],
  ])
  if (lead === null) return
  const late = Math.round(Math.max(0, -lead) * (companyPace(training.person, validThrough) - 1))
  planFrom(random, training, addDays(validThrough, late - lead))
}

function planFrom(random: Random, training: Training, day: PlainDate): void {
  training.nextTry.clear()
  const [first, ...others] = random.shuffle(training.certification.standards)
  training.nextTry.set(first!, day)
  for (const standard of others) training.nextTry.set(standard, addDays(day, within(random, OTHER_STANDARD)))
}

/** Plans what comes after a test that does not count: the same again, when a retest may be and no sooner than meant. */
export function planAgain({ random }: Program, training: Training, standard: string, day: PlainDate): void {
  const retest = retestsOn(training, day).find((one) => one.standard === standard)
  const again = addDays(day, within(random, TEST_AGAIN))
  training.nextTry.set(standard, laterDay(again, retest?.earliest ?? day, training.nextTry.get(standard) ?? day))
}

/** Plans what comes after an attempt that counts and is in the history. */
export function planAfterAttempt(program: Program, training: Training, standard: string, day: PlainDate): void {
  const { random } = program
  const retest = retestsOn(training, day).find((one) => one.standard === standard)
  if (retest) {
    if (retest.noGosInARow >= GIVES_UP_AFTER && random.chance(GIVES_UP)) {
      giveUp(program, training, day)
      return
    }
    const reviewed = retest.needsReview ? recordReview(program, training, standard, day) : day
    const earliest = laterDay(reviewed, retest.earliest)
    training.nextTry.set(standard, addDays(earliest, retestDelay(random)))
    return
  }
  const { awardedOn, validThrough, toward } = standingOn(training, day)
  const kept = toward.find((one) => one.standard === standard)
  if (kept) {
    // Taken again only when the other standard takes so long that this one no longer counts.
    training.nextTry.set(standard, addDays(kept.countsUntil, 1))
  } else if (awardedOn === day) {
    planRenewal(program, training, validThrough!)
    endCoaching(training, addDays(day, within(random, SPONSOR_STAYS)))
  }
}

const retestDelay = (random: Random): number =>
  random.weighted([
    [random.integer(0, 9), 0.5],
    [random.integer(10, 24), 0.3],
    [random.integer(25, 75), 0.2],
  ])

/** A review of what goes wrong, some weeks after the test, now and then much later. Out: its day. */
function recordReview(program: Program, training: Training, standard: string, day: PlainDate): PlainDate {
  const { random, today, events } = program
  const on = addDays(day, random.chance(0.5) ? random.integer(4, 20) : random.integer(30, 80))
  if (on < today) {
    const notes = [
      'Goes back to single commands with the sponsor; two sessions a week.',
      'Knows what is wrong, rushes under the eye of the grader. Mock tests with others watching.',
      'Sponsor to be helped by the platoon sergeant. Drill the failed measures first.',
      'No medical reason. Works the night shift; released for drill on two mornings a week.',
    ]
    training.history.reviews.push({ standard, on })
    const body = { standard, on, note: random.pick(notes) }
    events.push({ kind: 'review', at: morningOf(program, on), soldier: training.person.key, body })
  }
  return on
}

/** Leaves training for a season, and comes back with a sponsor found anew. */
function giveUp(program: Program, training: Training, day: PlainDate): void {
  const { random, today, events } = program
  const on = addDays(day, random.integer(5, 15))
  training.nextTry.clear()
  endCoaching(training, on)
  if (on >= today) return
  const reasons = ['Failed again and again; agreed with the platoon.', 'Goes to the arms room; not needed in the line.']
  training.history.withdrawals.push(on)
  const body = { certification: training.certification.code, on, reason: random.pick(reasons) }
  events.push({ kind: 'withdrawal', at: morningOf(program, on), soldier: training.person.key, body })
  planFrom(random, training, addDays(on, random.integer(90, 160)))
}
