import { addDays, type PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { isInTheField } from './field-training.ts'
import type { Program } from './program.ts'
import type { Wish } from './seats.ts'
import { isWantedOn, retestsOn, standingOn, type Training } from './training.ts'

/** How often somebody comes before the waiting time is over, or without the review that is due. */
const EARLY = 0.012
const WITHOUT_REVIEW = 0.06

/** Who wants to be tested on a day, who has waited longest first. Only who has a sponsor and is not suspended. */
export function wishesOn(program: Program, day: PlainDate): Wish[] {
  const wishes = [...program.trainings.values()].flat().flatMap((training) => {
    const sponsor = training.coaching?.sponsor
    if (!sponsor || training.nextTry.size === 0 || !isWantedOn(training, day)) return []
    if (standingOn(training, day).suspended || isInTheField(training.person, day, program.today)) return []
    return training.certification.standards.flatMap((standard) => {
      const since = training.nextTry.get(standard)
      if (since === undefined) return []
      const flaw = since <= day ? null : hurry(program, training, standard, day)
      return since <= day || flaw ? [{ since, wish: { training, standard, sponsor, flaw } satisfies Wish }] : []
    })
  })
  const inOrder = wishes.sort((one, other) => (one.since < other.since ? -1 : one.since > other.since ? 1 : 0))
  return oneOfEachFlaw(inOrder.map(({ wish }) => wish))
}

function oneOfEachFlaw(wishes: readonly Wish[]): Wish[] {
  const seen = new Set<Wish['flaw']>()
  return wishes.filter(({ flaw }) => {
    const isRepeated = flaw !== null && seen.has(flaw)
    seen.add(flaw)
    return !isRepeated
  })
}

/** Whether somebody comes although it is too early for a retest, or a review is due first. */
function hurry(program: Program, training: Training, standard: string, day: PlainDate): Wish['flaw'] {
  const retest = retestsOn(training, day).find((one) => one.standard === standard)
  if (!retest || retest.on >= day || training.settledOn >= day) return null
  if (retest.needsReview) {
    const comes =
      day >= retest.earliest && (program.undecided.has('review-missing') || program.random.chance(WITHOUT_REVIEW))
    return comes ? 'review-missing' : null
  }
  const isNearly = day < retest.earliest && day >= addDays(retest.earliest, -4)
  const comes = isNearly && (program.undecided.has('too-early') || program.random.chance(EARLY))
  return comes ? 'too-early' : null
}
