import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { type Flaw, wrongArm } from './flaws.ts'
import { hasCoached, type Person, placeOn, sponsorsOn } from './person.ts'
import { isCertifiedByNow, isCertifiedFor, mayGrade, type Program, trainingsFor } from './program.ts'
import type { Seat } from './seats.ts'

const MINUTE = 60_000

/** A sheet as it came in with its flaw, and how far the clock of the device was off. */
export interface FlawedSheet {
  readonly body: SheetBody
  readonly skew: number
}

/** Puts a flaw on a sheet that was in order; null where this sheet cannot have it. */
export function applyFlaw(
  program: Program,
  flaw: Flaw,
  body: SheetBody,
  seat: Seat,
  day: PlainDate,
): FlawedSheet | null {
  const changed = (changes: Partial<SheetBody>) => ({ body: { ...body, ...changes }, skew: 0 })
  switch (flaw) {
    case 'no-sponsor':
      return changed({ sponsorId: null, acknowledged: [] })
    case 'not-the-sponsor': {
      const standIn = someone(program, seat, day, (one) => isCertifiedFor(program, one, body.standard, day))
      return standIn === null ? null : changed({ sponsorId: standIn, acknowledged: [] })
    }
    case 'conditions':
      return changed({ conditions: { ...body.conditions, equipment: false } })
    case 'clock-skew':
      return { body, skew: program.random.integer(25, 70) * MINUTE }
    case 'arm-not-allowed':
      return changed({ arm: wrongArm(body.arm) })
    case 'grader-coached':
      return changed({ graderId: seat.sponsor.key, acknowledged: [] })
    case 'grader-not-qualified': {
      const grader = someone(program, seat, day, (one) => isNoGrader(program, one, body.standard, day))
      return grader === null ? null : changed({ graderId: grader })
    }
    case 'standard-not-in-force':
      return changed({ standardVersion: body.standardVersion - 1 })
    case 'too-early':
    case 'review-missing':
    case 'sponsor-not-certified':
    case 'void-after-failure':
      return { body, skew: 0 }
  }
}

/** Neither appointed nor certified, and not tested today. */
function isNoGrader(program: Program, person: Person, standard: string, day: PlainDate): boolean {
  const isTested = trainingsFor(program, person, standard).some(({ nextTry }) =>
    [...nextTry.values()].some((from) => from <= day),
  )
  return !isTested && !mayGrade(program, person, standard, day) && !isCertifiedByNow(program, person, standard, day)
}

type Test = (person: Person) => boolean

/** The number of a sergeant with no part in this test, of whom something holds that day. */
function someone(program: Program, { training, sponsor, grader }: Seat, day: PlainDate, test: Test): string | null {
  const candidate = training.person
  const found = program.people.filter(
    (one) =>
      one.duty === 'squad leader' &&
      placeOn(one, day) !== null &&
      one !== candidate &&
      one !== sponsor &&
      one !== grader &&
      !hasCoached(one, candidate, day) &&
      !sponsorsOn(candidate, day).includes(one) &&
      test(one),
  )
  return found.length > 0 ? program.random.pick(found).key : null
}
