import type { PlainDate } from '../calendar/plain-date.ts'
import { certificationEvents } from '../certification/events.ts'
import { advance, NO_PROGRESS, type Progress } from '../certification/progress.ts'
import { progressOn } from '../certification/status.ts'
import type { Attempt, Break, CarriedAward, Certification } from '../certification/types.ts'

/** Follows a soldier through a certification sheet by sheet, while it is still being found out which sheets count. */
export interface Follower {
  /** The progress as of this day from what lies before a sheet of this day, which comes after all attempts added so far. */
  before(day: PlainDate): Progress
  /** The attempt number of such a sheet. */
  attemptNumber(standard: string, day: PlainDate): number
  /** A sheet that counts and that the certification considers. Out: whether it made an award. */
  add(attempt: Attempt): boolean
}

export function followCertification(
  certification: Certification,
  breaks: readonly Break[],
  past: { readonly awards: readonly CarriedAward[]; readonly withdrawals: readonly PlainDate[] },
): Follower {
  const dayEnds = certificationEvents(certification, { attempts: [], ...past })
  const attempts: Attempt[] = []
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

  return {
    before(day) {
      if (latestDay <= day) return atBeginningOf(day)
      const awards = past.awards.filter(({ awardedOn }) => awardedOn < day)
      const withdrawals = past.withdrawals.filter((on) => on < day)
      return progressOn(certification, breaks, { attempts, awards, withdrawals }, day)
    },
    attemptNumber(standard, day) {
      return (atBeginningOf(day).attempts.get(standard) ?? 0) + 1
    },
    add(attempt) {
      progress = advance(certification, breaks, atBeginningOf(attempt.day), {
        kind: 'attempt',
        day: attempt.day,
        attempt,
      })
      dayEndsPassed = countDayEnds(attempt.day)
      if (attempt.day > latestDay) latestDay = attempt.day
      attempts.push(attempt)
      return progress.award?.madeBy?.id === attempt.id
    },
  }
}
