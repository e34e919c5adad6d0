import type { Step } from '../../server/domain/certification/walk.ts'

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
