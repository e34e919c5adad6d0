import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { morningOf, type Program } from './program.ts'
import { isWantedOn, standingOn, type Training } from './training.ts'

/** When somebody is suspended, in days before today, and after how many days it is lifted; null: not yet. */
const SUSPENSIONS = [
  { daysAgo: 470, liftAfter: 30 },
  { daysAgo: 390, liftAfter: 21 },
  { daysAgo: 320, liftAfter: 45 },
  { daysAgo: 250, liftAfter: 14 },
  { daysAgo: 170, liftAfter: 30 },
  { daysAgo: 110, liftAfter: 28 },
  { daysAgo: 66, liftAfter: 35 },
  { daysAgo: 27, liftAfter: null },
  { daysAgo: 19, liftAfter: 9 },
  { daysAgo: 12, liftAfter: null },
  { daysAgo: 6, liftAfter: null },
]
const REASONS = [
  'Blade swung toward a bystander at rehearsal. Safety talk and supervised drill before it is lifted.',
  'Dropped the weapon in a ceremony. To be watched in two rehearsals.',
  'Limited duty; standing long not allowed for the time being.',
  'Fell out of two rehearsals without leave.',
]
const LIFT_REASONS = [
  'Safety talk held, two rehearsals without fault.',
  'Back on full duty.',
  'Shown again before the first sergeant.',
]

/** Suspends somebody certified on each of the days after one and up to another, and lifts what is old. */
export function suspendBetween(program: Program, after: PlainDate, through: PlainDate): void {
  const { random, today, trainings } = program
  for (const { daysAgo, liftAfter } of SUSPENSIONS) {
    const from = addDays(today, -daysAgo)
    if (from <= after || from > through) continue
    const on = liftAfter === null ? null : addDays(from, liftAfter)
    const held = [...trainings.values()].flat().filter((training) => isHeld(training, from, on ?? addDays(today, 30)))
    if (held.length > 0) suspend(program, random.pick(held), from, on)
  }
}

/** Whether somebody is certified, needs it and has it until a day long after. */
function isHeld(training: Training, from: PlainDate, through: PlainDate): boolean {
  const { status, validThrough } = standingOn(training, from)
  const isNew = training.history.suspensions.length === 0
  return isNew && status === 'certified' && validThrough! > through && isWantedOn(training, from)
}

function suspend(program: Program, training: Training, from: PlainDate, on: PlainDate | null): void {
  const { random, events } = program
  const soldierId = training.person.key
  const certification = training.certification.code
  training.history.suspensions.push({ from, lift: on })
  const key = `${soldierId} ${certification}`
  const body = { soldierId, certification, from, reason: random.pick(REASONS) }
  events.push({ kind: 'suspension', at: morningOf(program, from), soldier: soldierId, key, body })
  if (on === null) return
  const lifted = { on, reason: random.pick(LIFT_REASONS) }
  events.push({ kind: 'lift', at: morningOf(program, on), soldier: soldierId, key, body: lifted })
}
