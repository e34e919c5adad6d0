import type { CertificationBody } from '../../../server/contract/standards/certifications.ts'
import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { Progress } from '../../../server/domain/certification/progress.ts'
import { progressOn, retestsOf, statusOf } from '../../../server/domain/certification/status.ts'
import type {
  Attempt,
  CarriedAward,
  Certification,
  CertificationStatus,
  OpenRetest,
  Review,
  Suspension,
} from '../../../server/domain/certification/types.ts'
import { laterDay } from '../day-order.ts'
import { type Coaching, type Person, placeOn } from './person.ts'

/** A soldier on the way to a certification, or holding it. Standing comes from the rules themselves. */
export interface Training {
  readonly person: Person
  readonly certification: CertificationBody
  /** Trains for it although the grade does not ask for it. */
  readonly isVoluntary: boolean
  readonly history: {
    readonly attempts: Attempt[]
    readonly awards: CarriedAward[]
    readonly withdrawals: PlainDate[]
    readonly suspensions: Suspension[]
    readonly reviews: Review[]
  }
  /** By standard, the day from which the soldier means to be tested next; none: not at all. */
  readonly nextTry: Map<string, PlainDate>
  /** By standard, how many tests have taught them something. */
  readonly lessons: Map<string, number>
  /** By standard and measure, how it suits them, in log-odds; and the fault they are used to. */
  readonly knacks: Map<string, Map<string, number>>
  readonly habits: Map<string, Map<string, string>>
  coaching: Coaching | null
  /** The day by which all sheets so far are in, and amended or decided about. */
  settledOn: PlainDate
}

export function createTraining(person: Person, certification: CertificationBody, isVoluntary: boolean): Training {
  return {
    person,
    certification,
    isVoluntary,
    history: { attempts: [], awards: [], withdrawals: [], suspensions: [], reviews: [] },
    nextTry: new Map(),
    lessons: new Map(),
    knacks: new Map(certification.standards.map((standard) => [standard, new Map()])),
    habits: new Map(certification.standards.map((standard) => [standard, new Map()])),
    coaching: null,
    settledOn: '',
  }
}

function rules({ certification }: Training): Certification {
  const { code, standards, arms, ...terms } = certification
  return { code, standards, arms, terms: [terms] }
}

/** Progress after everything that has happened, and when the last of it did: asked for over and over. */
const latest = new WeakMap<Training, { entries: number; since: PlainDate; progress: Progress }>()

function progressBy(training: Training, day: PlainDate): Progress {
  const { attempts, awards, withdrawals } = training.history
  const entries = attempts.length + awards.length + withdrawals.length
  let known = latest.get(training)
  if (known?.entries !== entries) {
    const since = laterDay('', ...attempts.map((one) => one.day), ...awards.map((one) => one.awardedOn), ...withdrawals)
    known = { entries, since, progress: progressOn(rules(training), [], training.history, since) }
    latest.set(training, known)
  }
  return day >= known.since ? known.progress : progressOn(rules(training), [], training.history, day)
}

export const standingOn = (training: Training, day: PlainDate): CertificationStatus =>
  statusOf(rules(training), [], progressBy(training, day), training.history.suspensions, day)

export const retestsOn = (training: Training, day: PlainDate): OpenRetest[] =>
  retestsOf(progressBy(training, day), training.history.reviews, day)

/** Whether the person holds the certification all through a day: since the day before, and not suspended on it. */
export function holdsThrough(training: Training, day: PlainDate): boolean {
  const { status, validThrough } = standingOn(training, addDays(day, -1))
  return status === 'certified' && validThrough! >= day && !standingOn(training, day).suspended
}

/** Whether the soldier is in the strength that day with a grade that the certification is required of, or wants it. */
export function isWantedOn({ person, certification, isVoluntary }: Training, day: PlainDate): boolean {
  const place = placeOn(person, day)
  if (!place || !certification.arms.some((arm) => place.arms.includes(arm))) return false
  return isVoluntary || isRequiredOf(certification, place.grade)
}

export const isRequiredOf = (certification: CertificationBody, grade: string): boolean =>
  certification.requiredOf?.grades?.includes(grade) ?? true
