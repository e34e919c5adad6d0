import type { CoachingWarning } from '#contract/coaching/coaching.ts'
import { formatDay, formatDayInFull } from '../../words/format-day.ts'

interface Said {
  what: string
  /** What to do about it. */
  todo: string
}

/** A warning in words, with its days and what to do. `isOwn`: the reader is the sponsor it is about. */
export const formatWarning = (
  { kind, on, test, booked, standard }: CoachingWarning,
  titleOf: (standard: string) => string,
  isOwn: boolean,
  today: string,
): Said => {
  const title = titleOf(standard)
  const day = formatDayInFull(on, today)
  switch (kind) {
    case 'retest-past-due':
      return booked && test
        ? {
            what: `The retest in ${title} was due by ${day}; it is booked for ${formatDay(test, today)}.`,
            todo: 'Be ready for that day; only the training office can give an earlier slot.',
          }
        : {
            what: `The retest in ${title} was due by ${day}; nothing is booked.`,
            todo: 'Ask the training office for the next test day.',
          }
    case 'booked-after-due':
      return {
        what: `The retest in ${title} is due by ${day}, but booked only for ${test ? formatDay(test, today) : 'later'}.`,
        todo: 'Ask the training office for an earlier slot.',
      }
    case 'review-needed':
      return {
        what: `A review comes before the retest in ${title}, which can be taken from ${day}.`,
        todo: 'Ask the training office to hold it and record it.',
      }
    case 'nothing-booked':
      return {
        what: `The retest in ${title} can be taken now and is due by ${day}; nothing is booked.`,
        todo: 'Ask the training office for a slot.',
      }
    case 'sponsor-not-certified': {
      const who = isOwn ? 'You are' : 'The sponsor is'
      const until =
        on > today ? ` certified in ${title} only through ${day}` : ` not certified in ${title} as of ${day}`
      const at = test === today ? 'today' : test && `on ${formatDay(test, today)}`
      const when = at ? `; ${booked ? 'the test' : 'a retest'} ${at} would be held` : ''
      return {
        what: `${who}${until}${when}.`,
        todo: isOwn
          ? 'Renew before it, or ask the training office for another sponsor.'
          : 'The sponsor renews before it, or the training office names another.',
      }
    }
    case 'sponsorship-ends':
      return {
        what: `The sponsorship ends on ${day}, before the test in ${title}${test ? ` of ${formatDay(test, today)}` : ''}.`,
        todo: 'Ask the training office to extend it, or to name who follows.',
      }
    case 'certification-lapses':
      return {
        what: `The certification lapses after ${day}; ${title} is ${test ? `booked only for ${formatDay(test, today)}` : 'not booked'} to renew it.`,
        todo: 'Ask the training office for a test day before.',
      }
    case 'go-ages-out':
      return {
        what: `The GO in ${title} counts until ${day}; what is missing beside it ${test ? `is booked for ${formatDay(test, today)}` : 'is not booked'}.`,
        todo: `Ask for a test day by then, or ${title} has to be taken again.`,
      }
  }
}
