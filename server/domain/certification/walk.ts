import type { PlainDate } from '../calendar/plain-date.ts'
import type { CertificationEvent } from './events.ts'
import type { Award, Progress } from './progress.ts'
import { progressOn } from './status.ts'
import type { AwardHistory, Break, Certification } from './types.ts'

/** An event with the progress before and after it. */
export interface Step {
  readonly event: CertificationEvent
  readonly before: Progress
  readonly after: Progress
}

/** The awards that sheets made, in order. */
export function earnedAwards(steps: readonly Step[]): Award[] {
  return steps.flatMap(({ event, after }) =>
    event.kind === 'attempt' && after.award?.madeBy?.id === event.attempt.id ? [after.award] : [],
  )
}

/**
 * The progress after each day on which something happened, in order of days. Where a move between time zones lets a
 * later sheet have an earlier day, the steps so far are not all that happened by then: such days are worked out alone.
 * With `since`: of those before that day only the last.
 */
export function progressByDay(
  certification: Certification,
  breaks: readonly Break[],
  history: AwardHistory,
  steps: readonly Step[],
  since?: PlainDate,
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
  const first =
    since === undefined
      ? 0
      : Math.max(
          0,
          days.findLastIndex((day) => day < since),
        )
  return days.slice(first).map((day) => ({
    day,
    progress: complete.get(day) ?? progressOn(certification, breaks, history, day),
  }))
}

const maximum = (a: PlainDate, b: PlainDate): PlainDate => (a < b ? b : a)
