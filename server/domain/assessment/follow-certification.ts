import type { PlainDate } from '../calendar/plain-date.ts'
import { type CertificationEvent, certificationEvents } from '../certification/events.ts'
import { advance, NO_PROGRESS, type Progress } from '../certification/progress.ts'
import { progressOn } from '../certification/status.ts'
import type { Attempt, AwardHistory, Break, Certification } from '../certification/types.ts'
import type { Step } from '../certification/walk.ts'
import { wordAbout } from '../certification/words.ts'

/** Follows a soldier through a certification sheet by sheet, while it is still being found out which sheets count. */
export interface Follower {
  /** The progress as of this day from what lies before a sheet of this day, which comes after all attempts added so far. */
  before(day: PlainDate): Progress
  /** The attempt number of such a sheet. */
  attemptNumber(standard: string, day: PlainDate): number
  /** A sheet that counts and that the certification considers. Out: whether it made an award. */
  add(attempt: Attempt): boolean
  /** All steps so far, and what comes at the end of later days. */
  steps(): Step[]
}

export function followCertification(
  certification: Certification,
  breaks: readonly Break[],
  past: Omit<AwardHistory, 'attempts'>,
): Follower {
  const dayEnds = certificationEvents(certification, { ...past, attempts: [] })
  const attempts: Attempt[] = []
  const steps: Step[] = []
  let progress = NO_PROGRESS
  let dayEndsPassed = 0
  let latestDay = ''

  const countDayEnds = (day: PlainDate): number => {
    let count = dayEndsPassed
    while (count < dayEnds.length && dayEnds[count]!.day < day) count += 1
    return count
  }
  const atBeginningOf = (day: PlainDate): Progress =>
    dayEnds
      .slice(dayEndsPassed, countDayEnds(day))
      .reduce((before, event) => advance(certification, breaks, before, event), progress)

  const stepFrom = (before: Progress, event: CertificationEvent): Step => {
    return { event, before, after: advance(certification, breaks, before, event) }
  }
  const go = (event: CertificationEvent): void => {
    const step = stepFrom(progress, event)
    steps.push(step)
    progress = step.after
  }

  return {
    before(day) {
      if (latestDay <= day) return atBeginningOf(day)
      const awards = past.awards.filter(({ awardedOn }) => awardedOn < day)
      const withdrawals = past.withdrawals.filter((on) => on < day)
      return progressOn(certification, breaks, { ...past, attempts, awards, withdrawals }, day)
    },
    attemptNumber(standard, day) {
      return (atBeginningOf(day).attempts.get(standard) ?? 0) + 1
    },
    add(attempt) {
      const passed = countDayEnds(attempt.day)
      for (const event of dayEnds.slice(dayEndsPassed, passed)) go(event)
      dayEndsPassed = passed
      go({ kind: 'attempt', day: attempt.day, attempt, word: wordAbout(past, attempt.id) })
      if (attempt.day > latestDay) latestDay = attempt.day
      attempts.push(attempt)
      return progress.award?.madeBy?.id === attempt.id
    },
    steps() {
      return dayEnds.slice(dayEndsPassed).reduce((sum, event) => {
        sum.push(stepFrom(sum.at(-1)?.after ?? NO_PROGRESS, event))
        return sum
      }, steps.slice())
    },
  }
}
