import { attemptAfter, type GainKind, NEW_CANDIDATE, remember } from '../ability/attempt-kind.ts'
import type { PlainDate } from '../calendar/plain-date.ts'
import type { Attempt, Certification } from '../certification/types.ts'
import type { Dossier, JudgingCatalogue } from './types.ts'

interface KindFollower {
  /** The kind of a test of this day, after all that were added. */
  next(standard: string, day: PlainDate): GainKind
  /** A test that counts, and the certifications that were awarded by it. */
  add(attempt: Attempt, awarded: readonly Certification[]): void
}

/**
 * Follows, sheet by sheet, what kind of attempt a soldier's next test of each standard is. Carried-over awards of
 * certifications that require it and withdrawals from them come at the end of their day, other awards with the sheet that made them.
 */
export function followKinds({ certifications }: JudgingCatalogue, { awards, withdrawals }: Dossier): KindFollower {
  const memories = new Map<string, typeof NEW_CANDIDATE>()
  const dayEnds = certifications
    .flatMap(({ code, standards }) => [
      ...(awards.get(code) ?? []).map(({ awardedOn }) => ({ day: awardedOn, kind: 'award' as const, standards })),
      ...(withdrawals.get(code) ?? []).map((day) => ({ day, kind: 'withdrawal' as const, standards })),
    ])
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
  let passed = 0

  const memoryOf = (standard: string) => memories.get(standard) ?? NEW_CANDIDATE
  const note = (standards: readonly string[], event: Parameters<typeof remember>[1]) => {
    for (const standard of standards) memories.set(standard, remember(memoryOf(standard), event))
  }
  const endDaysBefore = (day: PlainDate) => {
    for (; passed < dayEnds.length && dayEnds[passed]!.day < day; passed++) {
      const { standards, kind } = dayEnds[passed]!
      note(standards, { kind })
    }
  }
  return {
    next(standard, day) {
      endDaysBefore(day)
      return attemptAfter(memoryOf(standard)).gain
    },
    add({ standard, outcome, day }, awarded) {
      endDaysBefore(day)
      note([standard], { kind: 'test', outcome })
      for (const { standards } of awarded) note(standards, { kind: 'award' })
    },
  }
}
