import type { Lapse } from '#contract/readiness/readiness.ts'
import type { CoursePoint } from '../../../charts/share-course.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { formatMonth } from '../../../words/format-month.ts'
import { countedInWords, figure, inWords, plural } from '../../../words/format-number.ts'
import type { Course } from './to-courses.ts'

const total = (points: readonly (CoursePoint | undefined)[]) => ({
  part: points.reduce((sum, point) => sum + (point?.part ?? 0), 0),
  of: points.reduce((sum, point) => sum + (point?.of ?? 0), 0),
})

/** How many of the certifications that are required are in force. */
export const formatReady = (courses: readonly Course[]): string => {
  const now = total(courses.map(({ points }) => points.at(-1)))
  if (now.of === 0) return 'Nobody here is required to hold a certification.'
  if (now.part === now.of) return `All ${figure(now.of)} required certifications are in force.`
  return `${figure(now.part)} of ${figure(now.of)} required certifications are in force.`
}

/** Against the first day of the course; '' where nobody was required then. */
export const formatBefore = (courses: readonly Course[]): string => {
  const first = courses.flatMap(({ points }) => points[0] ?? [])
  const before = total(first)
  if (before.of === 0) return ''
  return `At the end of ${formatMonth(first[0]!.day.slice(0, 7))} it was ${figure(before.part)} of ${figure(before.of)}.`
}

/** "3 more than a year ago", of a unit's certified; '' where it is not known. */
export const formatChange = (now: CoursePoint, yearAgo: CoursePoint | undefined): string => {
  if (!yearAgo || yearAgo.of === 0) return ''
  const more = now.part - yearAgo.part
  if (more === 0) return 'as many as a year ago'
  return `${figure(Math.abs(more))} ${more > 0 ? 'more' : 'fewer'} than a year ago`
}

/** How many lapse within three months, or from when on where more do than are shown. */
export const formatLapses = (lapses: readonly Lapse[], more: boolean, today: string): string => {
  const [first] = lapses
  const count = lapses.length
  if (!first) return 'Nobody lapses within three months.'
  if (more) return `These ${figure(count)} lapse first, from ${formatDay(first.validThrough, today)} on.`
  return `${figure(count)} ${plural(count, 'certification')} ${plural(count, 'ends', 'end')} within three months.`
}

/** Ceremonies ahead and what they are short of. */
export const formatAhead = (ceremonies: readonly { posts: number; filled: number }[]): string => {
  const short = ceremonies.filter(({ posts, filled }) => filled < posts)
  if (ceremonies.length === 0) return ''
  if (short.length === 0) return 'Every post of the ceremonies ahead is filled.'
  const open = short.reduce((sum, { posts, filled }) => sum + posts - filled, 0)
  return `${countedInWords(open, 'post')} of ${inWords(short.length)} ${plural(short.length, 'ceremony', 'ceremonies')} ${plural(open, 'is', 'are')} not filled.`
}
