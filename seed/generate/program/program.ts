import type { StandardBody } from '../../../server/contract/standards/standards.ts'
import type { TestDayBody } from '../../../server/contract/test-days/test-days.ts'
import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { instantInZone } from '../../../server/domain/calendar/zoned-instant.ts'
import { laterDay } from '../day-order.ts'
import type { PlannedEvent } from '../plan.ts'
import type { Random } from '../random.ts'
import type { Flaw } from './flaws.ts'
import type { Person } from './person.ts'
import { holdsThrough, standingOn, type Training } from './training.ts'

/** The certification program of the demo unit while it is being made up, day by day. */
export interface Program {
  readonly random: Random
  /** First day of the program, and the day the demo is loaded; the record ends on the day before. */
  readonly start: PlainDate
  readonly today: PlainDate
  readonly timeZone: string
  /** All versions, in order. */
  readonly standards: readonly StandardBody[]
  readonly people: readonly Person[]
  readonly trainings: ReadonlyMap<Person, readonly Training[]>
  /** By person, the standards they are appointed to grade, with the days. */
  readonly appointments: Map<Person, { standard: string; from: PlainDate; to: PlainDate | null }[]>
  readonly testDays: readonly TestDayBody[]
  /** Flaws that still have to be found on a sheet of the last days, which nobody has decided about. */
  readonly undecided: Set<Flaw | 'amendment'>
  /** Whose NO-GO sheet is found only a month later, when they have come again too early and nobody knew. */
  readonly mislaid: Set<Training>
  readonly events: PlannedEvent[]
}

/** The version of a standard in force on a day. */
export const versionOn = ({ standards }: Program, code: string, day: PlainDate): StandardBody =>
  standards.findLast((one) => one.code === code && one.effectiveFrom <= day)!

/** Early in the morning of a day, before anything else is entered; not before the program began. */
export const morningOf = ({ start, timeZone }: Program, day: PlainDate): number =>
  instantInZone(laterDay(day, start), 7 * 60, timeZone)

export const isBeforeToday = ({ today, timeZone }: Program, instant: number): boolean =>
  instant < instantInZone(today, 0, timeZone)

/** Trainings of a person in certifications that require a standard. */
export const trainingsFor = ({ trainings }: Program, person: Person, standard: string): Training[] =>
  (trainings.get(person) ?? []).filter(({ certification }) => certification.standards.includes(standard))

/** Whether somebody is certified in a standard all through a day. */
export const isCertifiedFor = (program: Program, person: Person, standard: string, day: PlainDate): boolean =>
  trainingsFor(program, person, standard).some((training) => holdsThrough(training, day))

/** Whether somebody is certified in a standard by what has happened up to now, this day's tests so far included. */
export const isCertifiedByNow = (program: Program, person: Person, standard: string, day: PlainDate): boolean =>
  trainingsFor(program, person, standard).some((training) => standingOn(training, day).status === 'certified')

/** Whether somebody may grade a standard on a day: certified in it, or appointed. */
export function mayGrade(program: Program, person: Person, standard: string, day: PlainDate): boolean {
  const appointments = program.appointments.get(person) ?? []
  const isAppointed = appointments.some(
    (one) => one.standard === standard && one.from <= day && (one.to === null || day <= one.to),
  )
  return isAppointed || isCertifiedFor(program, person, standard, day)
}
