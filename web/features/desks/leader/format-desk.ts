import type { OutlookPage } from '#contract/ceremonies/outlooks.ts'
import { formatNextCeremony } from '../../../domain/ceremonies/format-ceremony.ts'
import { formatDayInFull } from '../../../words/format-day.ts'
import { capital, countedInWords, inWords, listed, plural } from '../../../words/format-number.ts'

type Item = OutlookPage['items'][number]

/** The answer of the desk: the first ceremony that is short, else that none is. */
export const formatDesk = (items: readonly Item[], today: string): string => {
  if (items.length === 0) return 'No ceremony is planned.'
  const first = items.find(({ ceremony }) => ceremony.filled < ceremony.posts)
  if (!first)
    return `${capital(inWords(items.length))} ${plural(items.length, 'ceremony', 'ceremonies')} to come, every post filled.`
  if (first === items[0]) return formatNextCeremony(first.ceremony, today)
  const { title, day, posts, filled } = first.ceremony
  return `First short: ${title}, ${day === today ? 'today' : formatDayInFull(day, today)}; ${countedInWords(posts - filled, 'post')} not filled.`
}

/** What one's own people could do for the ceremonies that are short. */
export const formatOwn = (items: readonly Item[], unit: string): string => {
  const short = items.filter(({ ceremony }) => ceremony.filled < ceremony.posts)
  if (short.length === 0) return ''
  const distinct = (group: Item['people'][number]['group']) =>
    new Set(short[0]!.people.filter((one) => one.group === group).map(({ soldierId }) => soldierId)).size
  const parts = [
    `${countedInWords(distinct('can stand'), 'more soldier')} can stand there`,
    ...(distinct('could make it') > 0
      ? [`${inWords(distinct('could make it'))} could make it if they pass a test`]
      : []),
    ...(distinct('lapses before') > 0
      ? [`${inWords(distinct('lapses before'))} ${plural(distinct('lapses before'), 'lapses', 'lapse')} before`]
      : []),
  ]
  return `Of ${unit}, ${listed(parts)}.`
}
