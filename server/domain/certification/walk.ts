import type { PlainDate } from '../calendar/plain-date.ts'
import { type CertificationEvent, certificationEvents } from './events.ts'
import { type Award, advance, NO_PROGRESS, type Progress } from './progress.ts'
import { progressOn } from './status.ts'
import type { Break, Certification, History } from './types.ts'

/** An event with the progress before and after it. */
export interface Step {
  readonly event: CertificationEvent
  readonly before: Progress
  readonly after: Progress
}

/** All steps of a soldier through a certification, in order. */
export function walk(
  certification: Certification,
  breaks: readonly Break[],
  history: Pick<History, 'attempts' | 'awards' | 'withdrawals'>,
): Step[] {
  let progress = NO_PROGRESS
  return certificationEvents(certification, history).map((event) => {
    const before = progress
    progress = advance(certification, breaks, before, event)
    return { event, before, after: progress }
  })
}

/** The awards that sheets made, in order. */
export function earnedAwards(steps: readonly Step[]): Award[] {
  return steps.flatMap(({ event, after }) =>
    event.kind === 'attempt' && after.award?.madeBy?.id === event.attempt.id ? [after.award] : [],
  )
}

/**
 * The attempt number of each considered sheet, by sheet id: one more than the considered sheets of its standard before
 * it since the last award or withdrawal.
 */
export function attemptNumbers(steps: readonly Step[]): Map<string, number> {
  return new Map(
    steps.flatMap(({ event, before }) =>
      event.kind === 'attempt'
        ? [[event.attempt.id, (before.attempts.get(event.attempt.standard) ?? 0) + 1] as const]
        : [],
    ),
  )
}

/**
 * The progress after each day on which something happened, in order of days. Where a move between time zones lets a
 * later sheet have an earlier day, the steps so far are not all that happened by then: such days are worked out alone.
 */
export function progressByDay(
  certification: Certification,
  breaks: readonly Break[],
  history: Pick<History, 'attempts' | 'awards' | 'withdrawals'>,
  steps: readonly Step[],
): { readonly day: PlainDate; readonly progress: Progress }[] {
  const complete = new Map<PlainDate, Progress>()
  const latestSoFar: PlainDate[] = []
  for (const { event } of steps) latestSoFar.push(maximum(latestSoFar.at(-1) ?? event.day, event.day))
  let earliestAfter: PlainDate | null = null
  for (let index = steps.length - 1; index >= 0; index--) {
    const { event, after } = steps[index]!
    const latest = latestSoFar[index]!
    if (earliestAfter === null || latest < earliestAfter) complete.set(latest, after)
    if (earliestAfter === null || event.day < earliestAfter) earliestAfter = event.day
  }
  const days = [...new Set(steps.map(({ event }) => event.day))].sort()
  return days.map((day) => ({
    day,
    progress: complete.get(day) ?? progressOn(certification, breaks, history, day),
  }))
}

const maximum = (a: PlainDate, b: PlainDate): PlainDate => (a < b ? b : a)
