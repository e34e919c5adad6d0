import { daysBetween } from '#calendar/plain-date.ts'
import type { Readiness } from '#contract/standards/certifications.ts'
import { formatDay } from '../../words/format-day.ts'
import { capital, counted, listed, plural } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'

type Item = Readiness['items'][number]

/** A lapse within so many days after the day asked for is worth a word. */
const SOON_DAYS = 45

const WAITING = 'tests passed; waiting for approval by the unit’s commander'

export interface ReasonWords {
  asOf: string
  today: string
  /** IANA zone of the unit; null: of this device. */
  zone: string | null
  standardTitle: (code: string) => string
  /** The standards that a certification asks for. */
  standardsOf: (certification: string) => readonly string[]
}

/** Why somebody stands as they do: the suspension, the failed test and when its retest is due, what is in and what is still to pass. */
export const formatReason = (item: Item, words: ReasonWords): string => {
  const reasons = [...because(item, words), ...(item.required ? [] : ['not required'])]
  return capital(reasons.join('; '))
}

const because = (item: Item, words: ReasonWords): string[] => {
  const { asOf, today, standardTitle, standardsOf } = words
  const day = (text: string) => formatDay(text, today)
  const missing = standardsOf(item.certification).filter((code) =>
    item.toward.every(({ standard }) => standard !== code),
  )
  const kept = item.toward.map(
    ({ standard, countsUntil }) => `${standardTitle(standard)} passed, counts until ${day(countsUntil)}`,
  )
  const retests = item.retests.map(
    ({ standard, on, due }) =>
      `NO-GO in ${standardTitle(standard)} on ${day(on)}, retest ${due < asOf ? 'was due' : 'due'} ${day(due)}`,
  )
  const toPass = missing
    .filter((code) => item.retests.every(({ standard }) => standard !== code))
    .map((code) => standardTitle(code))
  const open = toPass.length > 0 ? [`${listed(toPass)} still to pass`] : []
  switch (item.status) {
    case 'certified':
      return [...lapseSoon(item, asOf), ...retests]
    case 'suspended':
      return [item.suspension?.reason ?? '', ...retests].filter(Boolean)
    case 'awaiting approval':
      return [WAITING, ...retests]
    case 'lapsed':
      return [...(item.validThrough ? [`held through ${day(item.validThrough)}`] : []), ...kept]
    default:
      return [...retests, ...kept, ...open]
  }
}

const lapseSoon = ({ validThrough }: Item, asOf: string): string[] => {
  if (validThrough === null) return []
  const left = daysBetween(asOf, validThrough)
  if (left > SOON_DAYS) return []
  return [left === 0 ? 'last day' : `lapses ${counted(left, 'day')} after`]
}

/** The tests booked: "Tue 8 Dec, 09:00, Marching manual". Says so where a test is needed and none is booked, or comes after it is due. */
export const formatBooked = (
  { booked, status, retests }: Item,
  { today, zone, standardTitle }: ReasonWords,
): string => {
  if (booked.length === 0) return status === 'certified' || status === 'suspended' ? '' : 'Nothing booked'
  return booked
    .map(({ standard, on, startsAt }) => {
      const when = [formatDay(on, today), startsAt ? formatTime(startsAt, zone) : ''].filter(Boolean).join(', ')
      const isLate = retests.some((retest) => retest.standard === standard && retest.due < on)
      return `${when}, ${standardTitle(standard)}${isLate ? ' (after it is due)' : ''}`
    })
    .join('; ')
}

/** Of a list of those who cannot stand, in a sentence: how many have a test booked. */
export const formatHowManyBooked = (items: readonly Item[]): string => {
  const need = items.filter(({ status }) => status !== 'certified' && status !== 'suspended')
  if (need.length === 0) return ''
  const booked = need.filter((item) => item.booked.length > 0).length
  return booked === 0
    ? 'no test is booked for them'
    : `${booked} of ${need.length} ${plural(booked, 'has', 'have')} a test booked`
}
