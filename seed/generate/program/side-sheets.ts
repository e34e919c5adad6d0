import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { instantInZone } from '../../../server/domain/calendar/zoned-instant.ts'
import { observe } from '../marks/observe.ts'
import { perform } from '../marks/perform.ts'
import { marksOf } from '../marks/test-course.ts'
import { randomUuid } from '../random-uuid.ts'
import { chances } from './chances.ts'
import type { ConductedTest } from './conduct-test.ts'
import { createSheet } from './create-sheet.ts'
import { hasCoached, inStrengthThrough, type Person, placeOn } from './person.ts'
import { mayGrade, type Program, versionOn } from './program.ts'
import type { Seat } from './seats.ts'

const MINUTE = 60_000
/** Sponsors find fault rather than overlook it. */
const SPONSORS_EYE = { overlooks: 0.05, imagines: 0.02 }
/** Local time of practice, when the day's work is done. */
const PRACTICE_AT = 16 * 60 + 30
const PRACTICE_MINUTES = 45

/** A second grader's sheet of a completed test, who saw the same with other eyes; nothing where nobody is free. */
export function gradeTwice(
  program: Program,
  day: PlainDate,
  seat: Seat,
  test: ConductedTest,
  firstId: string,
  at: number,
) {
  const { random, events } = program
  const candidate = seat.training.person
  const free = (one: Person) =>
    one.eye !== null && one !== seat.grader && one !== seat.sponsor && one !== candidate && placeOn(one, day) !== null
  const able = program.people.filter(
    (one) => free(one) && !hasCoached(one, candidate, day) && mayGrade(program, one, seat.standard, day),
  )
  if (able.length === 0) return
  const second = random.pick(able)
  const minors = observe(random, test.standard, test.performance, second.eye!)
  const body = { ...test.body, graderId: second.key, secondOf: firstId, minors, notes: '', acknowledged: [] }
  const sheet = { kind: 'sheet' as const, id: randomUuid(random), body, deviceTime: at, stands: 'counted' as const }
  events.push({ at: at + MINUTE, ...sheet })
}

/** A practice sheet some days before a test, graded by the sponsor; nothing where the two had not met by then. */
export function practise(program: Program, day: PlainDate, seat: Seat): void {
  const { random, events, timeZone } = program
  const { training, sponsor, standard: code } = seat
  const on = addDays(day, -random.integer(2, 9))
  const { coaching, person } = training
  if (on < program.start || !coaching || coaching.from > on || inStrengthThrough(person, coaching.from) !== null) return
  const standard = versionOn(program, code, on)
  const chanceOf = chances(program, training, code, sponsor, on)
  const performance = perform(random, standard, chanceOf, training.habits.get(code)!)
  const marks = marksOf(standard, { kind: 'completed' }, observe(random, standard, performance, SPONSORS_EYE))
  const practice = {
    ...seat,
    grader: sponsor,
    startsAt: PRACTICE_AT + PRACTICE_MINUTES * training.certification.standards.indexOf(code),
  }
  const test = createSheet(program, on, practice, standard, marks, { share: 1, afterInstant: null })
  const body = { ...test, purpose: 'practice' as const, testDayId: null, acknowledged: [] }
  const at = instantInZone(on, PRACTICE_AT + 2 * PRACTICE_MINUTES, timeZone)
  events.push({
    kind: 'sheet',
    at,
    id: randomUuid(random),
    body,
    deviceTime: at,
    stands: 'counted',
  })
}
