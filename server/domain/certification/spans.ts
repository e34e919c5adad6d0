import { addDays, type PlainDate } from '../calendar/plain-date.ts'
import { NO_PROGRESS, type Progress } from './progress.ts'
import { retestsOf, statusOf } from './status.ts'
import type { Break, Certification, CertificationStatus, History, OpenRetest } from './types.ts'
import { progressByDay, type Step } from './walk.ts'

/** A value that holds from a day through a day (null: until something happens). */
export interface Span<Value> {
  readonly from: PlainDate
  readonly through: PlainDate | null
  readonly value: Value
}

/** An open retest without what depends on the very day. */
export type SpannedRetest = Omit<OpenRetest, 'pastDue'>

export interface StandingSpans {
  readonly statuses: readonly Span<CertificationStatus>[]
  readonly retests: readonly Span<SpannedRetest>[]
}

/** How somebody stood before a day, which is known: of the spans, those that reach the day before or a later one. */
export interface KnownSpans extends StandingSpans {
  readonly before: PlainDate
}

/**
 * A soldier's status in a certification over all days, and the open retests likewise, as few spans as say it.
 * Days in no span are those with "no test yet" and nothing else to say. Agrees with `certificationStatus` and
 * `openRetests` on every day.
 * With what is known before a day only the days from there on are worked out. Out then: the spans that reach the day before
 * or a later one, the same as without.
 */
export function certificationSpans(
  certification: Certification,
  breaks: readonly Break[],
  history: History,
  steps: readonly Step[],
  known?: KnownSpans,
): { statuses: Span<CertificationStatus>[]; retests: Span<SpannedRetest>[] } {
  const progresses = progressByDay(certification, breaks, history, steps, known?.before)
  const days = daysOfChange(certification, breaks, history, progresses, known?.before)
  let next = 0
  let progress = NO_PROGRESS
  const byDay = days.map((day) => {
    while (next < progresses.length && progresses[next]!.day <= day) progress = progresses[next++]!.progress
    return {
      day,
      status: statusOf(certification, breaks, progress, history.suspensions, day),
      retests: retestsOf(progress, history.reviews, day).map(({ pastDue: _, ...retest }) => retest),
    }
  })
  const lastKnown = <Value>(spans: readonly Span<Value>[] | undefined) =>
    spans?.find(({ from }) => from < known!.before) ?? null
  const statuses = toSpans(
    byDay.map(({ day, status }) => ({ day, value: saysSomething(status) ? status : null })),
    lastKnown(known?.statuses),
  )
  const retests = certification.standards.flatMap((standard) =>
    toSpans(
      byDay.map((one) => ({ day: one.day, value: one.retests.find((retest) => retest.standard === standard) ?? null })),
      lastKnown(known?.retests.filter(({ value }) => value.standard === standard)),
    ),
  )
  return { statuses, retests }
}

/** Every day on which the status or a retest may differ from the day before; with `since`, that day and those after it. */
function daysOfChange(
  certification: Certification,
  breaks: readonly Break[],
  history: History,
  progresses: readonly { readonly day: PlainDate; readonly progress: Progress }[],
  since?: PlainDate,
): PlainDate[] {
  const windows = new Set(certification.terms.map(({ windowDays }) => windowDays))
  const days = new Set<PlainDate>()
  for (const { day, progress } of progresses) {
    days.add(day)
    for (const award of progress.award ? [...progress.earlier, progress.award] : []) {
      if (award.inForceFrom !== null) days.add(award.inForceFrom)
      days.add(addDays(award.validThrough, 1))
    }
    for (const { on } of progress.kept.values()) for (const window of windows) days.add(addDays(on, window + 1))
  }
  for (const { effectiveFrom } of [...certification.terms, ...breaks]) days.add(effectiveFrom)
  for (const { on } of history.reviews) days.add(on)
  for (const { from, lift } of history.suspensions) {
    days.add(from)
    if (lift !== null) days.add(lift)
  }
  if (since === undefined) return [...days].sort()
  return [since, ...[...days].filter((day) => day > since).sort()]
}

/** Joins neighbouring days of equal value; null is a gap. A span that reaches the day before the first goes on or ends there. */
function toSpans<Value>(
  days: readonly { day: PlainDate; value: Value | null }[],
  known: Span<Value> | null,
): Span<Value>[] {
  const spans: Span<Value>[] = []
  const [first] = days
  const goesOn = known !== null && first !== undefined && isSame(known.value, first.value)
  let open: { from: PlainDate; value: Value; key: string } | null = known && {
    from: known.from,
    value: known.value,
    key: goesOn ? JSON.stringify(first.value) : 'of the days before',
  }
  for (const { day, value } of days) {
    const key = JSON.stringify(value)
    if (open && open.key === key) continue
    if (open) spans.push({ from: open.from, through: addDays(day, -1), value: open.value })
    open = value === null ? null : { from: day, value, key }
  }
  if (open) spans.push({ from: open.from, through: null, value: open.value })
  return spans
}

/** Whether two values say the same, in whatever order they name it: a database has an order of its own. */
const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a, inOrder) === JSON.stringify(b, inOrder)

const inOrder = (_: string, value: unknown): unknown =>
  value !== null && typeof value === 'object' && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value

const saysSomething = (status: CertificationStatus): boolean => status.status !== 'no test yet' || status.suspended
