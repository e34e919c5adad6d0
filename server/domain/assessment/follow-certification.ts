import type { PlainDate } from '../calendar/plain-date.ts'
import { certificationEvents } from '../certification/events.ts'
import { advance, NO_PROGRESS, type Progress } from '../certification/progress.ts'
import { progressOn } from '../certification/status.ts'
import type { Attempt, Break, CarriedAward, Certification } from '../certification/types.ts'

/** Follows a soldier through a certification sheet by sheet, while it is still being found out which sheets count. */
export interface Follower {
  /** The progress from what lies before a sheet of this day, which comes after all attempts added so far. */
  before(day: PlainDate): Progress
  /** A sheet that counts and that the certification considers. */
  add(attempt: Attempt): void
}

export function followCertification(
  certification: Certification,
  breaks: readonly Break[],
  past: { readonly awards: readonly CarriedAward[]; readonly withdrawals: readonly PlainDate[] },
): Follower {
  const dayEnds = certificationEvents(certification, { attempts: [], ...past })
  const added: Attempt[] = []
  let progress = NO_PROGRESS
  let next = 0
  let latestDay = ''
  const passDaysBefore = (day: PlainDate) => {
    while (next < dayEnds.length && dayEnds[next]!.day < day) {
      progress = advance(certification, breaks, progress, dayEnds[next]!)
      latestDay = dayEnds[next]!.day
      next += 1
    }
  }
  return {
    before(day) {
      passDaysBefore(day)
      if (latestDay <= day) return progress
      const events = certificationEvents(certification, { attempts: added, ...past })
      return progressOn(
        certification,
        breaks,
        events.filter((event) => event.kind === 'attempt' || event.day < day),
        day,
      )
    },
    add(attempt) {
      passDaysBefore(attempt.day)
      progress = advance(certification, breaks, progress, { kind: 'attempt', day: attempt.day, attempt })
      if (attempt.day > latestDay) latestDay = attempt.day
      added.push(attempt)
    },
  }
}
