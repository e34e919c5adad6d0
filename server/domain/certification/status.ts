import { addDays, type PlainDate } from '../calendar/plain-date.ts'
import { certificationEvents } from './events.ts'
import { advance, awardsOn, isBroken, NO_PROGRESS, type Progress } from './progress.ts'
import { termsOn } from './terms-on.ts'
import type {
  AwardHistory,
  Break,
  Certification,
  CertificationStatus,
  History,
  OpenRetest,
  Review,
  StatusWord,
  Suspension,
} from './types.ts'

/**
 * Where a soldier stands after everything that happened on or before a day. What happened later is left out before the
 * rest is put in order: a sheet of a later day may lie before one of an earlier day, where the unit's zone changed.
 */
export function progressOn(
  certification: Certification,
  breaks: readonly Break[],
  history: AwardHistory,
  day: PlainDate,
): Progress {
  const past = {
    ...history,
    attempts: history.attempts.filter((attempt) => attempt.day <= day),
    awards: history.awards.filter(({ awardedOn }) => awardedOn <= day),
    withdrawals: history.withdrawals.filter((on) => on <= day),
  }
  return certificationEvents(certification, past).reduce(
    (progress, event) => advance(certification, breaks, progress, event),
    NO_PROGRESS,
  )
}

/**
 * The status of one soldier in one certification as of a day, from what happened on or before it.
 * In: the certification with its terms, breaks between versions of its standards, the soldier's history in any order.
 */
export function certificationStatus(
  certification: Certification,
  breaks: readonly Break[],
  history: History,
  day: PlainDate,
): CertificationStatus {
  return statusOf(certification, breaks, progressOn(certification, breaks, history, day), history.suspensions, day)
}

/** The retests open as of a day, by standard. Same input as `certificationStatus`. */
export function openRetests(
  certification: Certification,
  breaks: readonly Break[],
  history: History,
  day: PlainDate,
): OpenRetest[] {
  return retestsOf(progressOn(certification, breaks, history, day), history.reviews, day)
}

/** The status on a day, given the progress by then. The first word that applies is the status. */
export function statusOf(
  certification: Certification,
  breaks: readonly Break[],
  progress: Progress,
  suspensions: readonly Suspension[],
  day: PlainDate,
): CertificationStatus {
  const { windowDays } = termsOn(certification.terms, day)
  const suspended = suspensions.some((one) => one.from <= day && (one.lift === null || one.lift > day))
  const toward = [...progress.kept]
    .map(([standard, go]) => ({ standard, ...go, countsUntil: addDays(go.on, windowDays) }))
    .filter((go) => go.countsUntil >= day && !isBroken(breaks, go.standard, go.version, day))
    .map(({ standard, on, countsUntil }) => ({ standard, on, countsUntil }))
    .sort(byStandard)
  const retestOpen = [...progress.retests.keys()].sort()
  const { latest, waiting } = awardsOn(progress, day)
  return {
    status: word({
      inForce: latest !== null && day <= latest.validThrough,
      suspended,
      waiting: waiting !== null,
      retest: retestOpen.length > 0,
      toward: toward.length > 0,
      award: latest !== null,
    }),
    awardedOn: latest?.awardedOn ?? null,
    validThrough: latest?.validThrough ?? null,
    suspended,
    toward,
    retestOpen,
  }
}

/** The retests open on a day, given the progress by then. */
export function retestsOf(progress: Progress, reviews: readonly Review[], day: PlainDate): OpenRetest[] {
  return [...progress.retests]
    .map(([standard, retest]) => {
      const noGosInARow = progress.noGosInARow.get(standard) ?? 0
      const reviewed = reviews.some((one) => one.standard === standard && retest.on <= one.on && one.on <= day)
      return {
        standard,
        attempt: (progress.attempts.get(standard) ?? 0) + 1,
        on: retest.on,
        earliest: retest.earliest,
        due: retest.due,
        pastDue: day > retest.due,
        noGosInARow,
        needsReview: noGosInARow >= retest.reviewAfter && !reviewed,
      }
    })
    .sort(byStandard)
}

function word(fact: {
  inForce: boolean
  suspended: boolean
  waiting: boolean
  retest: boolean
  toward: boolean
  award: boolean
}): StatusWord {
  if (fact.inForce) return fact.suspended ? 'suspended' : 'certified'
  if (fact.waiting) return 'awaiting approval'
  if (fact.retest) return 'retest due'
  if (fact.toward) return 'part way'
  return fact.award ? 'lapsed' : 'no test yet'
}

const byStandard = (a: { standard: string }, b: { standard: string }): number =>
  a.standard < b.standard ? -1 : a.standard > b.standard ? 1 : 0
