/** First ever; after a NO-GO; or again after a GO, an award or a withdrawal. */
export type AttemptKind = 'first' | 'retest' | 'renewal'

/** What a gain goes by: retests differ by how many NO-GO there were in a row. */
export type GainKind = 'first' | 'second' | 'later' | 'renewal'

/** What happened to a candidate in a standard, in order: a counted test, an award that requires it, a withdrawal. */
export type AttemptEvent =
  | { readonly kind: 'test'; readonly outcome: 'GO' | 'NO-GO' }
  | { readonly kind: 'award' }
  | { readonly kind: 'withdrawal' }

/** Where a candidate stands before the next test. */
export interface AttemptState {
  readonly kind: AttemptKind
  readonly gain: GainKind
}

/** What of the past the kind of the next test hangs on. */
export interface AttemptMemory {
  readonly isNew: boolean
  readonly noGosInARow: number
}

/** Of a candidate whom no test and no award has reached. */
export const NEW_CANDIDATE: AttemptMemory = { isNew: true, noGosInARow: 0 }

/**
 * The kind of the next test of a standard after these events. First: no test of it and no award before (a withdrawal alone leaves
 * one new); retest: the latest of them is a NO-GO; else renewal.
 */
export function nextAttempt(events: readonly AttemptEvent[]): AttemptState {
  return attemptAfter(events.reduce(remember, NEW_CANDIDATE))
}

/** The kind of each test among the events, in their order. */
export function attemptsOf(events: readonly AttemptEvent[]): AttemptState[] {
  let memory = NEW_CANDIDATE
  const states: AttemptState[] = []
  for (const event of events) {
    if (event.kind === 'test') states.push(attemptAfter(memory))
    memory = remember(memory, event)
  }
  return states
}

/** One event further. */
export function remember({ isNew, noGosInARow }: AttemptMemory, event: AttemptEvent): AttemptMemory {
  if (event.kind === 'withdrawal') return { isNew, noGosInARow: 0 }
  if (event.kind === 'award' || event.outcome === 'GO') return { isNew: false, noGosInARow: 0 }
  return { isNew: false, noGosInARow: noGosInARow + 1 }
}

/** The kind of the next test. */
export function attemptAfter({ isNew, noGosInARow }: AttemptMemory): AttemptState {
  if (isNew) return { kind: 'first', gain: 'first' }
  if (noGosInARow > 0) return { kind: 'retest', gain: noGosInARow === 1 ? 'second' : 'later' }
  return { kind: 'renewal', gain: 'renewal' }
}
