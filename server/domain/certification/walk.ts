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
 * later sheet have an earlier day, each day is worked out from all events up to it.
 */
export function progressByDay(
  certification: Certification,
  breaks: readonly Break[],
  steps: readonly Step[],
): { readonly day: PlainDate; readonly progress: Progress }[] {
  const daysRise = steps.every((step, index) => index === 0 || steps[index - 1]!.event.day <= step.event.day)
  if (daysRise) {
    return steps
      .filter((step, index) => steps[index + 1]?.event.day !== step.event.day)
      .map((step) => ({ day: step.event.day, progress: step.after }))
  }
  const events = steps.map(({ event }) => event)
  const days = [...new Set(events.map(({ day }) => day))].sort()
  return days.map((day) => ({ day, progress: progressOn(certification, breaks, events, day) }))
}
