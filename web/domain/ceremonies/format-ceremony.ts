import type { CeremonyDetail, CeremonySummary } from '#contract/ceremonies/ceremonies.ts'
import { formatDay, formatDayInFull } from '../../words/format-day.ts'
import { capital, inWords, listed, plural } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'
import { distinctNames } from '../soldiers/format-person.ts'
import { shortWhyNot } from './format-why-not.ts'

type Post = CeremonyDetail['formation'][number]
type Filled = Pick<CeremonySummary, 'posts' | 'filled'>

/** More names than these make no sentence any more. */
const NAMES_SAID = 3

/** "two of eleven posts are not filled", "all eleven posts are filled". */
export const formatFilled = ({ posts, filled }: Filled): string => {
  const short = posts - filled
  if (short === 0) return posts === 1 ? 'the one post is filled' : `all ${inWords(posts)} posts are filled`
  if (filled === 0) {
    return posts === 1 ? 'the one post is not filled' : `none of the ${inWords(posts)} posts is filled`
  }
  return `${inWords(short)} of ${inWords(posts)} posts ${plural(short, 'is', 'are')} not filled`
}

/** How a ceremony is manned: "Two of eleven posts are not filled for Founders’ Parade on Saturday 5 December." */
export const formatPosts = (ceremony: Filled & Pick<CeremonySummary, 'title' | 'day'>, today: string): string => {
  const when = ceremony.day === today ? 'today' : `on ${formatDayInFull(ceremony.day, today)}`
  return `${capital(formatFilled(ceremony))} for ${ceremony.title} ${when}.`
}

/** The next ceremony and its posts; '' when none is coming. */
export const formatNextCeremony = (next: CeremonySummary | undefined, today: string): string => {
  if (!next) return ''
  const when = next.day === today ? 'today' : formatDayInFull(next.day, today)
  return `Next: ${next.title}, ${when}; ${formatFilled(next)}.`
}

/** Why posts are short: how many have nobody named, and who is named but may not stand. */
export const formatWhyShort = (formation: readonly Post[]): string => {
  const open = formation.filter(({ soldier, otherUnit }) => soldier === null && !otherUnit).length
  const hidden = formation.filter(({ filled, otherUnit }) => otherUnit && !filled).length
  const cannot = formation.flatMap(({ soldier }) => (soldier && soldier.whyNot.length > 0 ? [soldier] : []))
  const sentences: string[] = []
  if (open > 0) sentences.push(`${capital(inWords(open))} ${plural(open, 'has', 'have')} nobody named.`)
  if (cannot.length > 0) {
    const names = distinctNames(formation.flatMap(({ soldier }) => soldier ?? []))
    const people = cannot
      .slice(0, NAMES_SAID)
      .map(({ id, whyNot }) => `${names.get(id)} (${listed(whyNot.map(shortWhyNot))})`)
    const rest = cannot.length - people.length
    const all = rest > 0 ? [...people, `${inWords(rest)} more`] : people
    sentences.push(`Named, but cannot stand that day: ${listed(all)}.`)
  }
  if (hidden > 0) {
    sentences.push(`${capital(inWords(hidden))} of another unit ${plural(hidden, 'is', 'are')} named who cannot stand.`)
  }
  return sentences.join(' ') || 'Everyone named can stand that day.'
}

type Times = Pick<CeremonySummary, 'day' | 'reportsAt' | 'startsAt' | 'endsAt'>

/** "Sat 5 Dec, report 09:00, 10:00 to 11:15". */
export const formatTimes = (
  { day, reportsAt, startsAt, endsAt }: Times,
  today: string,
  zone: string | null,
): string => {
  const [report, start, end] = [reportsAt, startsAt, endsAt].map((instant) => formatTime(instant, zone))
  return `${formatDay(day, today)}, ${report === start ? '' : `report ${report}, `}${start} to ${end}`
}

type Need = Pick<Post, 'arm' | 'grades' | 'minHeightCm' | 'maxHeightCm'>

/** What a post asks for beside its certification: "SGT or SSG, 165 to 190 cm". '' where it asks for nothing else. */
export const formatNeed = ({ grades, minHeightCm: least, maxHeightCm: most }: Need): string => {
  const band =
    least === null && most === null
      ? ''
      : least === null
        ? `up to ${most} cm`
        : most === null
          ? `from ${least} cm`
          : `${least} to ${most} cm`
  return [grades ? listed(grades, 'or') : '', band].filter(Boolean).join(', ')
}
