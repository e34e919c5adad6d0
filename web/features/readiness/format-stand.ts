import type { Readiness } from '#contract/standards/certifications.ts'
import { familyName } from '../../domain/soldiers/format-person.ts'
import { type StatusTally, totalOf } from '../../parts/readiness/tally-status.ts'
import { STATES } from '../../ui/state-mark.tsx'
import { formatDay, formatDayInFull } from '../../words/format-day.ts'
import { capital, figure, inWords, listed, plural } from '../../words/format-number.ts'

type Item = Readiness['items'][number]

const onDay = (day: string, today: string): string => (day === today ? 'today' : `on ${formatDayInFull(day, today)}`)

interface Asked {
  /** Name of the unit asked for. */
  unit: string
  /** Title of the certification asked for, or null for all of them. */
  certification: string | null
  asOf: string
  today: string
}

/** How many of those required can stand: "13 of 18 required in 2nd Platoon can stand today." */
export const formatStand = (tally: StatusTally, { unit, certification, asOf, today }: Asked): string => {
  const total = totalOf(tally)
  const { certified } = tally
  const where = unit ? ` in ${unit}` : ''
  const what = certification ? ` to hold ${certification}` : ' to hold a certification'
  if (total === 0) return `Nobody${where} is required${what} ${onDay(asOf, today)}.`
  if (!certification) {
    const all = certified === total ? `All ${figure(total)}` : `${figure(certified)} of ${figure(total)}`
    return `${all} required certifications${where} ${total === 1 ? 'is' : 'are'} in force ${onDay(asOf, today)}.`
  }
  const all =
    certified === total ? `All ${figure(total)} required` : `${figure(certified)} of ${figure(total)} required`
  return `${all}${what}${where} can stand ${onDay(asOf, today)}.`
}

const CANNOT: Record<Exclude<keyof StatusTally, 'certified'>, [one: string, many: string]> = {
  'awaiting approval': ['awaits approval', 'await approval'],
  'part way': ['is part way', 'are part way'],
  'retest due': ['has a retest due', 'have a retest due'],
  lapsed: ['has lapsed', 'have lapsed'],
  suspended: ['is suspended', 'are suspended'],
  'no test yet': ['has no test yet', 'have no test yet'],
}

/** What keeps the others from standing, and who lapses next when every row is known (`complete`). */
export const formatWhyNot = (tally: StatusTally, items: readonly Item[], complete: boolean, today: string): string => {
  const others = STATES.filter((state) => state !== 'certified')
    .filter((state) => tally[state] > 0)
    .map((state) => `${inWords(tally[state])} ${plural(tally[state], ...CANNOT[state])}`)
  const why = others.length > 0 ? `${capital(listed(others))}.` : ''
  if (!complete) return why
  const next = items
    .filter((item) => item.required && item.status === 'certified' && item.validThrough)
    .sort((a, b) => a.validThrough!.localeCompare(b.validThrough!))[0]
  const lapse = next
    ? `Next to lapse: ${next.grade} ${familyName(next.name)}, after ${formatDay(next.validThrough!, today)}.`
    : ''
  return [why, lapse].filter(Boolean).join(' ')
}
