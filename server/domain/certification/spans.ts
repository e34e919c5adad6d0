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

/**
 * A soldier's status in a certification over all days, and the open retests likewise, as few spans as say it.
 * Days in no span are those with "no test yet" and nothing else to say. Agrees with `certificationStatus` and
 * `openRetests` on every day.
 */
export function certificationSpans(
  certification: Certification,
  breaks: readonly Break[],
  history: History,
  steps: readonly Step[],
): { statuses: Span<CertificationStatus>[]; retests: Span<SpannedRetest>[] } {
  const progresses = progressByDay(certification, breaks, history, steps)
  const days = daysOfChange(certification, breaks, history, progresses)
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
  const statuses = toSpans(byDay.map(({ day, status }) => ({ day, value: saysSomething(status) ? status : null })))
  const retests = certification.standards.flatMap((standard) =>
    toSpans(
      byDay.map((one) => ({ day: one.day, value: one.retests.find((retest) => retest.standard === standard) ?? null })),
    ),
  )
  return { statuses, retests }
}

/** Every day on which the status or a retest may differ from the day before. */
function daysOfChange(
  certification: Certification,
  breaks: readonly Break[],
  history: History,
  progresses: readonly { readonly day: PlainDate; readonly progress: Progress }[],
): PlainDate[] {
  const windows = new Set(certification.terms.map(({ windowDays }) => windowDays))
  const days = new Set<PlainDate>()
  for (const { day, progress } of progresses) {
    days.add(day)
    if (progress.award) days.add(addDays(progress.award.validThrough, 1))
    for (const { on } of progress.kept.values()) for (const window of windows) days.add(addDays(on, window + 1))
  }
  for (const { effectiveFrom } of [...certification.terms, ...breaks]) days.add(effectiveFrom)
  for (const { on } of history.reviews) days.add(on)
  for (const { from, lift } of history.suspensions) {
    days.add(from)
    if (lift !== null) days.add(lift)
  }
  return [...days].sort()
}

/** Joins neighbouring days of equal value; null is a gap. */
function toSpans<Value>(days: readonly { day: PlainDate; value: Value | null }[]): Span<Value>[] {
  const spans: Span<Value>[] = []
  let open: { from: PlainDate; value: Value; key: string } | null = null
  for (const { day, value } of days) {
    const key = JSON.stringify(value)
    if (open && open.key === key) continue
    if (open) spans.push({ from: open.from, through: addDays(day, -1), value: open.value })
    open = value === null ? null : { from: day, value, key }
  }
  if (open) spans.push({ from: open.from, through: null, value: open.value })
  return spans
}

const saysSomething = (status: CertificationStatus): boolean => status.status !== 'no test yet' || status.suspended
