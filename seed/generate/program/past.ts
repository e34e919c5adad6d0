import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import { addMonths } from '../../../server/domain/calendar/add-months.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { instantInZone, textInZone } from '../../../server/domain/calendar/zoned-instant.ts'
import { laterDay } from '../day-order.ts'
import { randomUuid } from '../random-uuid.ts'
import { planAfterAttempt, planFirstTests, planRenewal } from './next-try.ts'
import { type Person, placeOn } from './person.ts'
import { morningOf, type Program } from './program.ts'
import { isWantedOn, type Training } from './training.ts'

/** Who joined so short before the program began has no past in it. */
const NEW_DAYS = 45

/**
 * Where everybody stands when the program begins: certified on paper, lapsed, half way by an old result, or not begun.
 * Those who come or rise later begin their training then.
 */
export function beginTrainings(program: Program): void {
  const { random, start } = program
  for (const training of [...program.trainings.values()].flat()) {
    const from = wantedFrom(program, training)
    if (from === null) continue
    if (from > addDays(start, -NEW_DAYS)) planFirstTests(program, training, laterDay(from, start))
    else {
      const begin = random.weighted([
        [certifiedOnPaper, 0.56],
        [lapsedOnPaper, 0.13],
        [resultOnPaper, 0.12],
        [notBegun, 0.19],
      ])
      begin(program, training)
    }
  }
}

/** The first day from which somebody wants the certification, of the time that reaches into the program. */
function wantedFrom({ start, today }: Program, training: Training): PlainDate | null {
  const period = training.person.periods.find(
    ({ from, through }) =>
      from < today && (through === null || through >= start) && isWantedOn(training, laterDay(from, start)),
  )
  return period?.from ?? null
}

function carryOver(program: Program, training: Training, awardedOn: PlainDate): PlainDate {
  const { certification, person, history } = training
  const validThrough = addMonths(awardedOn, certification.validityMonths)
  history.awards.push({ awardedOn, validThrough, entry: 1 })
  const page = program.random.integer(1, 140)
  const evidence = `Certification book ${awardedOn.slice(0, 4)}, page ${page}; paper grade sheets seen.`
  const body = { certification: certification.code, awardedOn, validThrough, evidence }
  program.events.push({ kind: 'award', at: morningOf(program, program.start), soldier: person.key, body })
  return validThrough
}

function certifiedOnPaper(program: Program, training: Training): void {
  const validThrough = carryOver(program, training, addDays(program.start, -program.random.integer(5, 350)))
  planRenewal(program, training, validThrough)
}

function lapsedOnPaper(program: Program, training: Training): void {
  carryOver(program, training, addDays(program.start, -program.random.integer(372, 560)))
  planFirstTests(program, training, program.start)
}

const notBegun = (program: Program, training: Training): void =>
  planFirstTests(program, training, addDays(program.start, program.random.integer(-20, 60)))

/** A test of the weeks before, of which only the result was kept; entered when the program begins. */
function resultOnPaper(program: Program, training: Training): void {
  const { random, start, timeZone, events } = program
  const { certification, person, history } = training
  const standard = random.pick(certification.standards)
  const day = addDays(start, -random.integer(4, 40))
  const graders = program.people.filter((one) => one.eye !== null && one !== person && isThere(one, day))
  if (graders.length === 0 || !isThere(person, day)) {
    notBegun(program, training)
    return
  }
  const outcome = random.chance(0.65) ? 'GO' : 'NO-GO'
  const finishedAt = instantInZone(day, random.integer(9 * 60, 15 * 60), timeZone)
  const arm = certification.arms[0] ?? null
  const id = randomUuid(random)
  const body: SheetBody = {
    purpose: 'test',
    standard,
    standardVersion: 1,
    arm,
    candidateId: person.key,
    sponsorId: null,
    graderId: random.pick(graders).key,
    testDayId: null,
    secondOf: null,
    startedAt: textInZone(finishedAt - 30 * 60_000, timeZone),
    finishedAt: textInZone(finishedAt, timeZone),
    conditions: { uniform: true, equipment: true, sponsorPresent: true },
    majors: [],
    minors: [],
    pauses: [],
    void: null,
    outcomeOnly: outcome,
    notes: 'From the result list of the old binder.',
    acknowledged: [],
  }
  const at = instantInZone(addDays(start, random.integer(0, 6)), 9 * 60 + random.integer(0, 400), timeZone)
  events.push({ kind: 'sheet', at, id, body, deviceTime: at, stands: 'counted' })
  history.attempts.push({ id, standard, version: 1, arm, finishedAt, day, outcome })
  planFirstTests(program, training, addDays(start, -60))
  planAfterAttempt(program, training, standard, day)
}

const isThere = (person: Person, day: PlainDate): boolean => placeOn(person, day) !== null
