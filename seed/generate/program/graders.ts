import { addMonths } from '../../../server/domain/calendar/add-months.ts'
import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { firstEnd, laterDay } from '../day-order.ts'
import { inStrengthThrough, type Person, placeOn } from './person.ts'
import { mayGrade, morningOf, type Program } from './program.ts'

const RIFLE = 'rifle-standing'
const APPOINTED_FOR_ALL = ['training officer', 'training sergeant']
const APPOINTED_FOR_RIFLE = 0.5
const APPOINTMENT_MONTHS = 12
const MOST_LANES = 4
const TESTS_A_LANE = 6

/**
 * Appoints graders: the training office for every standard as long as they serve, some of the others a year at a time
 * for the rifle, which sergeants are not certified in.
 */
export function appointGraders(program: Program): void {
  for (const person of program.people.filter(({ eye }) => eye !== null)) {
    const isOffice = APPOINTED_FOR_ALL.includes(person.duty)
    if (!isOffice && !program.random.chance(APPOINTED_FOR_RIFLE)) continue
    const from = firstDay(program, person)
    if (from === null) continue
    const until = isOffice ? null : addMonths(from, APPOINTMENT_MONTHS)
    const to = firstEnd(inStrengthThrough(person, from), until)
    const codes = isOffice ? [...new Set(program.standards.map(({ code }) => code))] : [RIFLE]
    const appointments = codes.map((standard) => ({ standard, from, to }))
    program.appointments.set(person, appointments)
    for (const body of appointments) {
      program.events.push({ kind: 'appointment', at: morningOf(program, from), soldier: person.key, body })
    }
  }
}

/** The first day of the program that finds a person in the strength; null where it finds none. */
function firstDay({ start, today }: Program, person: Person): PlainDate | null {
  const place = person.periods.find(({ through }) => through === null || through > start)
  if (!place || place.from >= today) return null
  return laterDay(place.from, start)
}

/**
 * Who grades on a test day: as many as the tests need, one of them for the rifle and one for the blade at least.
 * In: who is tested or there as a sponsor that day, and so does not grade. Out: empty where nobody may.
 */
export function chooseGraders(program: Program, day: PlainDate, busy: ReadonlySet<Person>, tests: number): Person[] {
  const { random } = program
  const free = random.shuffle(
    program.people.filter((one) => one.eye !== null && placeOn(one, day) !== null && !busy.has(one)),
  )
  const chosen = new Set<Person>()
  for (const standard of [RIFLE, 'sword-saber-standing']) {
    const able = free.find((one) => !chosen.has(one) && mayGrade(program, one, standard, day))
    if (able) chosen.add(able)
  }
  const lanes = Math.min(MOST_LANES, Math.ceil(tests / TESTS_A_LANE))
  for (const one of free) {
    if (chosen.size >= lanes) break
    if (program.standards.some(({ code }) => mayGrade(program, one, code, day))) chosen.add(one)
  }
  return [...chosen]
}
