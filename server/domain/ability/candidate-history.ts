import { type AttemptEvent, type AttemptState, attemptsOf, type GainKind, nextAttempt } from './attempt-kind.ts'

/** A counted test of one standard. */
export interface CountedTest {
  readonly id: string
  readonly graderId: string
  readonly day: string
  readonly version: number
  readonly passed: boolean
  /** Outcome of each major and then each minor by the definition: G, N, or -; empty where only the outcome is known. */
  readonly marks: string
  /** Correct and marked trials of each minor; empty where only the outcome is known. */
  readonly correct: readonly number[]
  readonly tried: readonly number[]
}

/** All that happened to a candidate in one standard, each list in order. */
export interface CandidateHistory {
  readonly candidateId: string
  readonly tests: readonly CountedTest[]
  /** Awards that require the standard without a test, and withdrawals: at the end of their day. */
  readonly others: readonly { readonly day: string; readonly kind: 'award' | 'withdrawal' }[]
}

/** The kind of each test, in order. */
export function kindsOfTests(history: CandidateHistory): AttemptState[] {
  return attemptsOf(eventsOf(history))
}

/** The kind of the next test after the events up to a day. */
export function kindAfter({ candidateId, tests, others }: CandidateHistory, day: string): AttemptState {
  return nextAttempt(
    eventsOf({
      candidateId,
      tests: tests.filter((test) => test.day <= day),
      others: others.filter((other) => other.day <= day),
    }),
  )
}

function eventsOf({ tests, others }: CandidateHistory): AttemptEvent[] {
  const rank = { test: 0, award: 1, withdrawal: 2 }
  const all = [
    ...tests.map(({ day, passed }) => ({ day, event: { kind: 'test', outcome: passed ? 'GO' : 'NO-GO' } as const })),
    ...others.map(({ day, kind }) => ({ day, event: { kind } })),
  ]
  // The sort is stable, so tests of a day keep their order.
  return all
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : rank[a.event.kind] - rank[b.event.kind]))
    .map(({ event }) => event)
}

const GAINS: readonly GainKind[] = ['second', 'later', 'renewal']
const VECTORS = new Map<GainKind, readonly number[]>(
  (['first', ...GAINS] as const).map((kind) => [kind, GAINS.map((gain) => Number(gain === kind))]),
)

/** How many gains the model of a unit has: the second test in a row, later ones, a renewal; a first test has none. */
export const UNIT_GAINS = GAINS.length

/** What the gains are multiplied by in a test of a kind. */
export const gainVector = (kind: GainKind): readonly number[] => VECTORS.get(kind)!
