import { addDays, type PlainDate } from '../calendar/plain-date.ts'

/** A kept GO or a sponsor's certification that ends within so many days is worth a warning without a booking; practice. */
export const SOON_DAYS = 30

export const WARNING_KINDS = [
  'retest-past-due',
  'booked-after-due',
  'review-needed',
  'sponsor-not-certified',
  'sponsorship-ends',
  'go-ages-out',
  'certification-lapses',
  'nothing-booked',
] as const
export type WarningKind = (typeof WARNING_KINDS)[number]

/** Something about a candidate's coming tests that somebody must see to. */
export interface Warning {
  readonly kind: WarningKind
  /** The day it turns on: due, earliest, or the last day of what ends. */
  readonly on: PlainDate
  readonly certification: string
  readonly standard: string
  /** Day of the test it is about: the one booked, else the first possible one; null: none is known. */
  readonly test: PlainDate | null
  readonly booked: boolean
}

interface Ahead {
  readonly certification: string
  readonly standard: string
  readonly retest: { readonly earliest: PlainDate; readonly due: PlainDate; readonly needsReview: boolean } | null
  readonly booking: { readonly on: PlainDate } | null
}

interface Kept {
  readonly certification: string
  readonly standard: string
  readonly countsUntil: PlainDate
}

interface Held {
  readonly certification: string
  readonly standards: readonly string[]
  readonly validThrough: PlainDate
}

export interface CoachingFacts {
  readonly today: PlainDate
  readonly ahead: readonly Ahead[]
  /** Kept GOs that count today, of certifications not in force. */
  readonly kept: readonly Kept[]
  /** Required certifications in force. */
  readonly held?: readonly Held[]
  /** Last day of the sponsorship; null: without end. Undefined: no sponsor is asked about. */
  readonly until?: PlainDate | null
  /** Last day on which the sponsor is certified for a standard without a break from today; null: not certified today. */
  readonly certifiedThrough?: (standard: string) => PlainDate | null
}

/** The warnings of one candidate, the soonest day first. Each says what day it turns on. */
export function coachingWarnings(facts: CoachingFacts): Warning[] {
  const found = [...facts.ahead.flatMap((one) => ofTest(facts, one)), ...ageing(facts), ...lapsing(facts)]
  const rank = ({ kind }: Warning) => WARNING_KINDS.indexOf(kind)
  return found.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : rank(a) - rank(b)))
}

function ofTest({ today, until, certifiedThrough }: CoachingFacts, ahead: Ahead): Warning[] {
  const { certification, standard, retest, booking } = ahead
  const test = booking?.on ?? (retest && later(retest.earliest, today))
  const warning = (kind: WarningKind, on: PlainDate): Warning => ({
    kind,
    on,
    certification,
    standard,
    test,
    booked: booking !== null,
  })
  const warnings: Warning[] = []
  if (retest && retest.due < today) warnings.push(warning('retest-past-due', retest.due))
  if (retest && booking && retest.due >= today && booking.on > retest.due) {
    warnings.push(warning('booked-after-due', retest.due))
  }
  if (retest?.needsReview) warnings.push(warning('review-needed', retest.earliest))
  if (retest && booking === null && retest.earliest <= today && retest.due >= today) {
    warnings.push(warning('nothing-booked', retest.due))
  }
  if (certifiedThrough) {
    const through = certifiedThrough(standard)
    const needed = test ?? addDays(today, SOON_DAYS)
    if (through === null) warnings.push(warning('sponsor-not-certified', today))
    else if (through < needed) warnings.push(warning('sponsor-not-certified', through))
  }
  if (until && test !== null && until < test) warnings.push(warning('sponsorship-ends', until))
  return warnings
}

/** Kept GOs that stop counting before the tests still missing beside them: before the last one booked, or soon. */
function ageing({ today, ahead, kept }: CoachingFacts): Warning[] {
  return kept.flatMap(({ certification, standard, countsUntil }) => {
    const missing = ahead.filter((one) => one.certification === certification && one.standard !== standard)
    if (missing.length === 0) return []
    const booked = missing.flatMap(({ booking }) => booking?.on ?? [])
    const test = booked.length === missing.length ? booked.reduce(later) : null
    const inTime = test === null ? countsUntil > addDays(today, SOON_DAYS) : countsUntil >= test
    if (inTime) return []
    return [{ kind: 'go-ages-out' as const, on: countsUntil, certification, standard, test, booked: test !== null }]
  })
}

/** Certifications that end soon, where a test to renew them is neither booked in time nor open as a retest. */
function lapsing({ today, ahead, held = [] }: CoachingFacts): Warning[] {
  return held.flatMap(({ certification, standards, validThrough }) => {
    if (validThrough > addDays(today, SOON_DAYS)) return []
    const waiting = standards.find((standard) => {
      const one = ahead.find((test) => test.standard === standard)
      return !one?.retest && (one?.booking == null || one.booking.on > validThrough)
    })
    if (waiting === undefined) return []
    const test = ahead.find(({ standard }) => standard === waiting)?.booking?.on ?? null
    const on = validThrough
    return [
      { kind: 'certification-lapses' as const, on, certification, standard: waiting, test, booked: test !== null },
    ]
  })
}

/**
 * The warnings about a candidate's sponsors that matter: a test is looked after when one of them is certified and still
 * the sponsor that day, whatever is said of the others. In: the warnings of each sponsor; out: without those.
 */
export function uncovered<Sponsor>(
  sponsors: readonly { readonly sponsor: Sponsor; readonly warnings: readonly Warning[] }[],
): { readonly sponsor: Sponsor; readonly warnings: readonly Warning[] }[] {
  const isCovered = ({ standard }: Warning) =>
    sponsors.some(({ warnings }) => warnings.every((warning) => warning.standard !== standard))
  return sponsors.map(({ sponsor, warnings }) => ({
    sponsor,
    warnings: warnings.filter((warning) => !isCovered(warning)),
  }))
}

const later = (one: PlainDate, other: PlainDate): PlainDate => (one > other ? one : other)
