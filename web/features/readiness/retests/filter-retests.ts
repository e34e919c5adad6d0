import type { Retest } from '#contract/standards/certifications.ts'
import { DUE_SOON_DAYS, isDueSoon } from '../../../domain/readiness/due-soon.ts'

/** The states by which the list is narrowed, as the address has them, and what they are called. */
export const RETEST_STATES = {
  'past-due': 'past due',
  'due-soon': `due within ${DUE_SOON_DAYS} days`,
  review: 'review needed first',
  ready: 'can be taken now',
  waiting: 'not yet allowed',
} as const

/** The retests in one of those states as of a day; all of them for a state that is none. */
export const retestsInState = (retests: readonly Retest[], state: string, asOf: string): Retest[] =>
  retests.filter((one) => {
    switch (state) {
      case 'past-due':
        return one.pastDue
      case 'due-soon':
        return isDueSoon(one, asOf)
      case 'review':
        return one.needsReview
      case 'ready':
        return !one.needsReview && one.earliest <= asOf
      case 'waiting':
        return !one.needsReview && one.earliest > asOf
      default:
        return true
    }
  })

/** What tells one retest from another. */
export const keyOf = ({
  soldierId,
  certification,
  standard,
}: Pick<Retest, 'soldierId' | 'certification' | 'standard'>) => `${soldierId} ${certification} ${standard}`
