import { addMonths } from '../calendar/add-months.ts'
import { addDays, type PlainDate } from '../calendar/plain-date.ts'
import type { CertificationEvent } from './events.ts'
import { termsOn } from './terms-on.ts'
import type { Attempt, Break, Certification } from './types.ts'
import { inForceFrom, isRefused, type Word } from './words.ts'

export interface Award {
  readonly awardedOn: PlainDate
  /** Its last day, as extended. */
  readonly validThrough: PlainDate
  /** Null: it waits for a commander. */
  readonly inForceFrom: PlainDate | null
  /** The attempt that made it; null for one carried over. */
  readonly madeBy: Attempt | null
}

export interface OpenedRetest {
  readonly on: PlainDate
  readonly earliest: PlainDate
  readonly due: PlainDate
  readonly reviewAfter: number
}

/** Where a soldier stands in a certification after what has happened so far, before any day is asked about. */
export interface Progress {
  /** The latest made, in force or not yet. */
  readonly award: Award | null
  /** Those made before it that stay in force until it is, in order. */
  readonly earlier: readonly Award[]
  readonly kept: ReadonlyMap<string, { readonly on: PlainDate; readonly version: number }>
  readonly retests: ReadonlyMap<string, OpenedRetest>
  readonly noGosInARow: ReadonlyMap<string, number>
  /** Attempts of each standard since the last award or withdrawal. */
  readonly attempts: ReadonlyMap<string, number>
}

export const NO_PROGRESS: Progress = {
  award: null,
  earlier: [],
  kept: new Map(),
  retests: new Map(),
  noGosInARow: new Map(),
  attempts: new Map(),
}

/**
 * One event further. A GO forgets kept GOs older than the window and those that a break in the standard ended, is kept
 * itself and closes its retest; with every required standard kept an award is made and all kept GOs and retests are used
 * up, unless a commander refused it. A NO-GO drops the kept GO and opens a retest. Awards and withdrawals begin everything anew.
 */
export function advance(
  certification: Certification,
  breaks: readonly Break[],
  before: Progress,
  event: CertificationEvent,
): Progress {
  switch (event.kind) {
    case 'award': {
      const { awardedOn, validThrough } = event.award
      return awarded(before, { awardedOn, validThrough, inForceFrom: awardedOn, madeBy: null })
    }
    case 'withdrawal':
      return { ...NO_PROGRESS, award: before.award, earlier: before.earlier }
    case 'attempt':
      return event.attempt.outcome === 'GO'
        ? advanceByGo(certification, breaks, before, event)
        : advanceByNoGo(certification, before, event.attempt)
  }
}

function advanceByGo(
  certification: Certification,
  breaks: readonly Break[],
  before: Progress,
  { attempt, word }: { readonly attempt: Attempt; readonly word: Word },
): Progress {
  const terms = termsOn(certification.terms, attempt.day)
  const oldest = addDays(attempt.day, -terms.windowDays)
  const kept = new Map([...before.kept, [attempt.standard, { on: attempt.day, version: attempt.version }] as const])
  for (const [standard, go] of kept) {
    if (go.on < oldest || isBroken(breaks, standard, go.version, attempt.day)) kept.delete(standard)
  }
  if (certification.standards.every((standard) => kept.has(standard)) && !isRefused(terms, word)) {
    return awarded(before, {
      awardedOn: attempt.day,
      validThrough: addDays(addMonths(attempt.day, terms.validityMonths), word.extendedDays),
      inForceFrom: inForceFrom(terms, attempt.day, word),
      madeBy: attempt,
    })
  }
  return {
    award: before.award,
    earlier: before.earlier,
    kept,
    retests: without(before.retests, attempt.standard),
    noGosInARow: without(before.noGosInARow, attempt.standard),
    attempts: countedUp(before.attempts, attempt.standard),
  }
}

function advanceByNoGo(certification: Certification, before: Progress, attempt: Attempt): Progress {
  const { waitDays, dueDays, reviewAfter } = termsOn(certification.terms, attempt.day)
  const on = attempt.day
  const retest = { on, earliest: addDays(on, waitDays), due: addDays(on, dueDays), reviewAfter }
  return {
    award: before.award,
    earlier: before.earlier,
    kept: without(before.kept, attempt.standard),
    retests: new Map([...before.retests, [attempt.standard, retest]]),
    noGosInARow: countedUp(before.noGosInARow, attempt.standard),
    attempts: countedUp(before.attempts, attempt.standard),
  }
}

/** Everything begins anew after an award; until it is in force those before it are. */
function awarded(before: Progress, award: Award): Progress {
  const earlier =
    award.inForceFrom === award.awardedOn || before.award === null ? [] : [...before.earlier, before.award]
  return { ...NO_PROGRESS, award, earlier }
}

/**
 * The latest award made of those that have come into force by a day (its last day may be over), and the one made after it
 * that has not; null where there is none.
 */
export function awardsOn(
  { award, earlier }: Progress,
  day: PlainDate,
): { latest: Award | null; waiting: Award | null } {
  const all = award === null ? [] : [...earlier, award]
  const latest = all.findLast((one) => one.inForceFrom !== null && one.inForceFrom <= day) ?? null
  return { latest, waiting: latest === award ? null : award }
}

/** Whether a GO taken under this version has ceased to count on a day, because a later version is not equivalent. */
export function isBroken(breaks: readonly Break[], standard: string, version: number, day: PlainDate): boolean {
  return breaks.some((one) => one.standard === standard && version < one.version && one.effectiveFrom <= day)
}

function without<Value>(map: ReadonlyMap<string, Value>, key: string): ReadonlyMap<string, Value> {
  if (!map.has(key)) return map
  const copy = new Map(map)
  copy.delete(key)
  return copy
}

function countedUp(map: ReadonlyMap<string, number>, key: string): ReadonlyMap<string, number> {
  return new Map([...map, [key, (map.get(key) ?? 0) + 1]])
}
