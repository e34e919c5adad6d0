import type { Retest } from '#contract/standards/certifications.ts'
import { familyName } from '../../../domain/soldiers/format-person.ts'
import { formatDay } from '../../../words/format-day.ts'
import { capital, figure, inWords, listed, plural } from '../../../words/format-number.ts'

export interface RetestTally {
  open: number
  pastDue: number
  needReview: number
  /** May be taken already: the earliest day is past and no review is missing. */
  ready: number
  waiting: number
}

/** Counts of open retests as of a day. */
export const tallyRetests = (retests: readonly Retest[], asOf: string): RetestTally => {
  const needReview = retests.filter((retest) => retest.needsReview).length
  const waiting = retests.filter((retest) => retest.earliest > asOf && !retest.needsReview).length
  return {
    open: retests.length,
    pastDue: retests.filter((retest) => retest.pastDue).length,
    needReview,
    waiting,
    ready: retests.length - needReview - waiting,
  }
}

/** The answer on the retest page: "31 retests are open; four of them are past due." */
export const formatBacklog = ({ open, pastDue }: RetestTally, unit: string): string => {
  const where = unit ? ` in ${unit}` : ''
  if (open === 0) return `No retest is open${where}.`
  const all = `${capital(inWords(open))} ${plural(open, 'retest is', 'retests are')} open${where}`
  if (pastDue === 0) return `${all}; none is past due.`
  if (open === 1) return `${all}, and it is past due.`
  if (pastDue === open) return `${all}; all are past due.`
  return `${all}; ${inWords(pastDue)} of them ${plural(pastDue, 'is', 'are')} past due.`
}

/** What can be done about them. */
export const formatWhatIsReady = (
  { open, ready, needReview, waiting }: RetestTally,
  retests: readonly Retest[],
  today: string,
): string => {
  if (open === 0) return 'Whoever is NO-GO in a test comes here with the earliest and the last day to retest.'
  const all = ready === open && open > 1 ? 'all can be taken now' : ''
  const parts = all
    ? [all]
    : [
        ready > 0 ? `${figure(ready)} can be taken now` : '',
        waiting > 0 ? `${figure(waiting)} must wait some days yet` : '',
        needReview > 0 ? `${figure(needReview)} ${plural(needReview, 'needs', 'need')} a review first` : '',
      ].filter(Boolean)
  const next = retests.filter(({ pastDue }) => !pastDue).sort((a, b) => a.due.localeCompare(b.due))[0]
  const nextDue = next ? ` Next due: ${next.grade} ${familyName(next.name)}, by ${formatDay(next.due, today)}.` : ''
  return `${capital(listed(parts))}.${nextDue}`
}
