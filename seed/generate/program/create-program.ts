import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import { addMonths } from '../../../server/domain/calendar/add-months.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { certifications } from '../../catalogue/certifications.ts'
import { marchingSecondVersion } from '../../catalogue/marching-second-version.ts'
import { readStandard } from '../../catalogue/read-standard.ts'
import { DEMO_ZONE } from '../establishment.ts'
import type { PlannedSoldier } from '../people.ts'
import type { Random } from '../random.ts'
import { testCalendar } from '../test-calendar.ts'
import { createPerson, type Person } from './person.ts'
import type { Program } from './program.ts'
import { createTraining, isRequiredOf, type Training } from './training.ts'

const MONTHS = 18
const DAYS_AHEAD = 42
/** The marching manual was changed so many months ago. */
const CHANGED_MONTHS_AGO = 5
/** Who trains for what the grade does not ask for: corporals ahead of promotion, sergeants who coach riflemen. */
const VOLUNTEERS = [
  { grade: 'CPL', certification: 'sword', share: 0.5 },
  { grade: 'SGT', certification: 'rifle', share: 0.5 },
]

/** The program on its first day, before anything has happened in it. */
export function createProgram({
  random,
  today,
  soldiers,
}: {
  random: Random
  today: PlainDate
  soldiers: readonly PlannedSoldier[]
}): Program {
  const standards = readStandards(today)
  const people = soldiers.map((soldier) => createPerson(random, soldier, standards))
  const start = addMonths(today, -MONTHS)
  return {
    random,
    start,
    today,
    timeZone: DEMO_ZONE,
    standards,
    people,
    trainings: new Map(people.map((person) => [person, trainingsOf(random, person)])),
    appointments: new Map(),
    testDays: testCalendar(random, start, addDays(today, DAYS_AHEAD)),
    undecided: new Set(),
    mislaid: new Set(),
    events: [],
  }
}

/** The standards of the catalogue, the marching manual in both its versions. */
function readStandards(today: PlainDate): StandardBody[] {
  const codes = ['sword-saber-standing', 'sword-saber-marching', 'rifle-standing']
  const [standing, marching, rifle] = codes.map(readStandard)
  const changedFrom = `${addMonths(today, -CHANGED_MONTHS_AGO).slice(0, 7)}-01`
  return [standing!, marching!, marchingSecondVersion(marching!, changedFrom), rifle!]
}

/** What somebody may ever train for: what a grade they hold asks for, and what they volunteer for. */
function trainingsOf(random: Random, person: Person): Training[] {
  const isEver = (test: (grade: string) => boolean) => person.periods.some(({ grade }) => test(grade))
  const volunteers = VOLUNTEERS.filter(({ grade, share }) => random.chance(share) && isEver((one) => one === grade))
  return certifications.flatMap((certification) => {
    const isVoluntary = volunteers.some((one) => one.certification === certification.code)
    const isRequired = isEver((grade) => isRequiredOf(certification, grade))
    return isRequired || isVoluntary ? [createTraining(person, certification, isVoluntary)] : []
  })
}
