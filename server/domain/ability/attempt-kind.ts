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

interface Memory {
  readonly isNew: boolean
  readonly noGosInARow: number
}

const NEW: Memory = { isNew: true, noGosInARow: 0 }

/**
 * The kind of the next test of a standard after these events. First: no test of it and no award before (a withdrawal alone leaves
 * one new); retest: the latest of them is a NO-GO; else renewal.
 */
export function nextAttempt(events: readonly AttemptEvent[]): AttemptState {
  return stateOf(events.reduce(remember, NEW))
}

/** The kind of each test among the events, in their order. */
export function attemptsOf(events: readonly AttemptEvent[]): AttemptState[] {
  let memory = NEW
  const states: AttemptState[] = []
  for (const event of events) {
    if (event.kind === 'test') states.push(stateOf(memory))
    memory = remember(memory, event)
  }
  return states
}

function remember({ isNew, noGosInARow }: Memory, event: AttemptEvent): Memory {
  if (event.kind === 'withdrawal') return { isNew, noGosInARow: 0 }
  if (event.kind === 'award' || event.outcome === 'GO') return { isNew: false, noGosInARow: 0 }
  return { isNew: false, noGosInARow: noGosInARow + 1 }
}

function stateOf({ isNew, noGosInARow }: Memory): AttemptState {
  if (isNew) return { kind: 'first', gain: 'first' }
  if (noGosInARow > 0) return { kind: 'retest', gain: noGosInARow === 1 ? 'second' : 'later' }
  return { kind: 'renewal', gain: 'renewal' }
}
