import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { conductTest } from './conduct-test.ts'
import { LEFT_UNDECIDED } from './flaws.ts'
import { appointGraders, chooseGraders } from './graders.ts'
import { endOutgrown } from './outgrown.ts'
import { beginTrainings } from './past.ts'
import type { Person } from './person.ts'
import type { Program } from './program.ts'
import { recordTest } from './record-test.ts'
import { type Seat, seat } from './seats.ts'
import { practise } from './side-sheets.ts'
import { provideSponsors, recordSponsorships } from './sponsors.ts'
import { suspendBetween } from './suspensions.ts'
import { wishesOn } from './wishes.ts'

/** So many test days before today there may be sheets that nobody has decided about. */
const DAYS_UNDECIDED = 6
const STORM = 0.05
const PRACTISED = 0.075
/** How often the written times of two tests of one morning overlap, and of how many at most. */
const OVERLAP = 0.1
const MOST_OVERLAPS = 2

/** Lets the program go on from its first day to the day before today; everything it enters is in `events`. */
export function runProgram(program: Program): void {
  appointGraders(program)
  beginTrainings(program)
  const { start, today, testDays, undecided } = program
  const past = testDays.filter(({ on }) => on < today)
  let before = addDays(start, -1)
  let overlaps = 0
  past.forEach(({ on }, index) => {
    if (index === past.length - DAYS_UNDECIDED) for (const flaw of LEFT_UNDECIDED) undecided.add(flaw)
    suspendBetween(program, before, on)
    endOutgrown(program, on)
    provideSponsors(program, on)
    overlaps += holdTestDay(program, on, MOST_OVERLAPS - overlaps)
    before = on
  })
  suspendBetween(program, before, addDays(today, -1))
  recordSponsorships(program)
}

/** One test day. Out: how many sheets overlap another one of the same candidate. */
function holdTestDay(program: Program, day: PlainDate, mostOverlaps: number): number {
  const { random } = program
  const wishes = wishesOn(program, day)
  const busy = new Set(wishes.flatMap(({ training, sponsor }) => [training.person, sponsor]))
  const seats = seat(program, day, wishes, chooseGraders(program, day, busy, wishes.length))
  const storm = random.chance(STORM) && seats.length > 3 ? random.pick(seats).startsAt : null
  const over = new Map<Person, number>()
  let overlaps = 0
  for (const one of seats.filter(({ startsAt }) => storm === null || startsAt <= storm)) {
    const candidate = one.training.person
    const last = over.get(candidate)
    const afterInstant = last !== undefined && overlaps < mostOverlaps && random.chance(OVERLAP) ? last : null
    if (afterInstant !== null) overlaps += 1
    holdTest(program, day, one, { isStorm: one.startsAt === storm, afterInstant }, over)
  }
  return overlaps
}

function holdTest(
  program: Program,
  day: PlainDate,
  one: Seat,
  around: Parameters<typeof conductTest>[3],
  over: Map<Person, number>,
): void {
  if (program.random.chance(PRACTISED)) practise(program, day, one)
  const test = conductTest(program, day, one, around)
  over.set(one.training.person, Date.parse(test.body.finishedAt))
  recordTest(program, day, one, test)
}
