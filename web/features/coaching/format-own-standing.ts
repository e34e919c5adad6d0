import type { CandidateCoaching } from '#contract/coaching/coaching.ts'
import type { CertificationStatus } from '#contract/standards/certifications.ts'
import { formatDayInFull, formatDayWithYear } from '../../words/format-day.ts'
import { capital, listed } from '../../words/format-number.ts'

interface Known {
  statuses: readonly CertificationStatus[]
  ahead: CandidateCoaching['ahead']
  /** What a certification is about, as a sentence has it: "with the rifle". */
  about: (certification: string) => string
  standardTitle: (code: string) => string
  today: string
}

/** What leads to a certification that is not held, for the soldier who asks. */
const formatWay = (status: CertificationStatus, { ahead, standardTitle, today }: Known): string => {
  if (status.status === 'awaiting approval') return 'you have passed, and wait for your commander to sign'
  const tests = ahead.filter(({ certification }) => certification === status.certification)
  const booked = tests.find(({ booking }) => booking !== null)?.booking
  if (booked) return `your test is booked for ${formatDayInFull(booked.on, today)}`
  const retest = tests.find((one) => one.retest !== null)?.retest
  if (retest) {
    return retest.pastDue
      ? `your retest was due by ${formatDayInFull(retest.due, today)}: ask for a test day`
      : `your retest is due by ${formatDayInFull(retest.due, today)}: ask for a test day`
  }
  const missing = tests.map(({ standard }) => standardTitle(standard))
  if (status.status === 'part way' && missing.length > 0) {
    return `${listed([...new Set(missing)])} ${missing.length === 1 ? 'is' : 'are'} still to come: ask for a test day`
  }
  return 'ask for a test day'
}

/**
 * The first sentence a soldier reads of the own record: with what they may stand and until when, with what not, and what to do.
 * "You may stand with the rifle until 20 October 2027; not with the sword: ask for a test day."
 */
export const formatOwnStanding = (known: Known): string => {
  const { statuses, about, today } = known
  if (statuses.length === 0) return 'No certification is for what you carry today.'
  const until = (day: string | null) => (day ? ` until ${formatDayWithYear(day)}` : '')
  const may = statuses.filter(({ status }) => status === 'certified')
  const suspended = statuses.filter(({ status }) => status === 'suspended')
  const without = statuses.filter(({ status }) => status !== 'certified' && status !== 'suspended')
  const parts = [
    ...(may.length > 0
      ? [`you may stand ${listed(may.map((one) => `${about(one.certification)}${until(one.validThrough)}`))}`]
      : []),
    ...(suspended.length > 0
      ? [
          `${may.length > 0 ? 'not' : 'you may not stand'} ${listed(
            suspended.map((one) => about(one.certification)),
            'or',
          )} while you are suspended`,
        ]
      : []),
    ...without.map((one, place) => {
      const since =
        one.status === 'lapsed' && one.validThrough ? ` since ${formatDayInFull(one.validThrough, today)}` : ''
      const lead = may.length + suspended.length + place > 0 ? 'not' : 'you may not stand'
      const yet = one.status === 'no test yet' || one.status === 'part way' ? ' yet' : ''
      return `${lead} ${about(one.certification)}${yet}${since}: ${formatWay(one, known)}`
    }),
  ]
  return `${capital(parts.join('; '))}.`
}
