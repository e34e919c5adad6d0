import { daysBetween, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { measureTrait } from '../marks/measure-traits.ts'
import type { Person } from './person.ts'
import type { Program } from './program.ts'
import type { Training } from './training.ts'

/** Log-odds for everybody alike, which sets how many pass. */
const LEVEL = -0.25
const BLIND_SPOT = -0.7
const A_LESSON = 0.3
const MOST_LESSONS = 3
const KNACK_SPREAD = 0.4
const FORM_SPREAD = 0.3
/** What drilling a failed measure is worth. */
const DRILLED = 0.35
/** What is left of the lessons a year after. */
const LESSONS_LEFT = 1

/**
 * The chance of a right trial by measure, for one test: the measure's ease, the soldier's talent, knack and lessons, what
 * the sponsor taught, and the form of the day, added in log-odds.
 */
export function chances(
  program: Program,
  training: Training,
  standard: string,
  sponsor: Person,
  day: PlainDate,
): (measure: string) => number {
  const { random, start, today } = program
  const form = random.normal(0, FORM_SPREAD)
  const knacks = training.knacks.get(standard)!
  const lessons = Math.min(MOST_LESSONS, training.lessons.get(standard) ?? 0)
  const isLater = daysBetween(start, day) * 2 > daysBetween(start, today)
  return (measure) => {
    const { ease, eased = 0 } = measureTrait(standard, measure)
    const knack = knacks.get(measure) ?? random.normal(0, KNACK_SPREAD)
    knacks.set(measure, knack)
    const taught = sponsor.coach.quality + (sponsor.coach.blindSpots.get(standard) === measure ? BLIND_SPOT : 0)
    const odds =
      LEVEL + ease + (isLater ? eased : 0) + training.person.talent + knack + lessons * A_LESSON + taught + form
    return 1 / (1 + Math.exp(-odds))
  }
}

/** What a test teaches: a lesson in all, and the failed measures are drilled. */
export function learn(training: Training, standard: string, failed: readonly string[]): void {
  const knacks = training.knacks.get(standard)!
  for (const measure of failed) knacks.set(measure, (knacks.get(measure) ?? 0) + DRILLED)
  training.lessons.set(standard, (training.lessons.get(standard) ?? 0) + 1)
}

/** What is forgotten by the time a certification is renewed. */
export function forget(training: Training): void {
  for (const standard of training.certification.standards) training.lessons.set(standard, LESSONS_LEFT)
}
