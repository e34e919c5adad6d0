import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { firstEnd } from '../day-order.ts'
import { companyOf } from '../establishment.ts'
import { type Coaching, inStrengthThrough, type Person, placeOn, sponsorsOn } from './person.ts'
import { isCertifiedFor, morningOf, type Program } from './program.ts'
import { isWantedOn, type Training } from './training.ts'

/** So long before a test a candidate is given a sponsor. */
const AHEAD_DAYS = 35
/** How often a sponsor who is no longer certified goes on unnoticed. */
const UNNOTICED = 0.3

/** Gives everybody who means to be tested before long a sponsor, and another one where the sponsor can no longer be it. */
export function provideSponsors(program: Program, day: PlainDate): void {
  const load = loadOfSponsors(program, day)
  for (const training of [...program.trainings.values()].flat()) {
    const next = [...training.nextTry.values()].sort()[0]
    if (next === undefined || next > addDays(day, AHEAD_DAYS) || !isWantedOn(training, day)) continue
    const { coaching } = training
    if (coaching && goesOn(training, coaching, day)) {
      if (canTeach(program, training, coaching.sponsor, day) || program.random.chance(UNNOTICED)) continue
    }
    endCoaching(training, addDays(day, -1))
    const sponsor = chooseSponsor(program, training, day, load)
    if (!sponsor) continue
    load.set(sponsor, (load.get(sponsor) ?? 0) + 1)
    training.coaching = { sponsor, from: day, to: null }
    training.person.coachings.push(training.coaching)
  }
}

/** Ends the coaching of a training after a day, or undoes it where it had not begun. */
export function endCoaching(training: Training, on: PlainDate): void {
  const { coaching, person } = training
  if (!coaching) return
  if (coaching.from > on) person.coachings.splice(person.coachings.indexOf(coaching), 1)
  else coaching.to = on
  training.coaching = null
}

/** Whether sponsor and candidate have both been there since it began. */
function goesOn({ person }: Training, { sponsor, from }: Coaching, day: PlainDate): boolean {
  return [person, sponsor].every((one) => (inStrengthThrough(one, from) ?? day) >= day)
}

/** Whether somebody is certified in all that a candidate trains for. */
const canTeach = (program: Program, { certification }: Training, sponsor: Person, day: PlainDate): boolean =>
  certification.standards.every((one) => isCertifiedFor(program, sponsor, one, day))

function loadOfSponsors({ people }: Program, day: PlainDate): Map<Person, number> {
  const load = new Map<Person, number>()
  for (const person of people) {
    if (placeOn(person, day) === null) continue
    for (const sponsor of sponsorsOn(person, day)) load.set(sponsor, (load.get(sponsor) ?? 0) + 1)
  }
  return load
}

/** A willing sponsor with a place free: most often of the platoon, or one who coached this soldier before. */
function chooseSponsor(program: Program, training: Training, day: PlainDate, load: Map<Person, number>): Person | null {
  const { person } = training
  const present = sponsorsOn(person, day)
  const candidates = program.people
    .filter((one) => one !== person && !present.includes(one) && (load.get(one) ?? 0) < one.coach.places)
    .map((one) => [one, nearness(person, one, day)] as const)
    .filter(([one, weight]) => weight > 0 && canTeach(program, training, one, day))
  return candidates.length > 0 ? program.random.weighted(candidates) : null
}

function nearness(candidate: Person, sponsor: Person, day: PlainDate): number {
  const [own, other] = [placeOn(candidate, day)?.unitId, placeOn(sponsor, day)?.unitId]
  if (own === undefined || other === undefined) return 0
  const again = candidate.coachings.some((one) => one.sponsor === sponsor) ? 3 : 1
  if (own === other) return 12 * again
  return (companyOf(own) === companyOf(other) ? 3 : 0.5) * again
}

/** The sponsorships as they are entered, once it is known how long they lasted. */
export function recordSponsorships(program: Program): void {
  for (const person of program.people) {
    for (const coaching of person.coachings) {
      program.events.push({
        kind: 'sponsorship',
        at: morningOf(program, coaching.from),
        soldier: person.key,
        body: { sponsorId: coaching.sponsor.key, from: coaching.from, to: lastDay(program, person, coaching) },
      })
    }
  }
}

/** A coaching ends with the strength of either of the two; null where that is not before today. */
function lastDay({ today }: Program, candidate: Person, { sponsor, from, to }: Coaching): PlainDate | null {
  const end = firstEnd(to, inStrengthThrough(candidate, from), inStrengthThrough(sponsor, from))
  return end !== null && end < today ? end : null
}
