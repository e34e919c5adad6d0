import { sponsorOn } from '../../booking/sponsor-on.ts'
import { daysBetween, type PlainDate } from '../../calendar/plain-date.ts'
import type { AtMost, Level, Pair, PlanProblem } from '../problem.ts'
import { MINUTES_APART, MOST_A_DAY } from './choices.ts'
import type { Choice, OpenSlot, WantedTest } from './types.ts'

/** A test with the slots it may go into. */
export interface WantedChoices {
  readonly test: WantedTest
  readonly choices: readonly Choice[]
}

interface Row {
  readonly pair: Pair
  readonly test: WantedTest
  readonly slot: OpenSlot
}

/** Names of the levels of a retest plan, in their order. */
export const RETEST_LEVELS = {
  kept: 'bookings kept',
  byDue: 'placed by their due day',
  placed: 'placed',
  posts: 'expected posts filled',
  late: 'days after due',
  moved: 'bookings moved',
  early: 'days into the period',
} as const

/** Tests in the order in which a problem lists them: those due first ahead, then by candidate and standard. */
export const inPlanOrder = (wanted: readonly WantedChoices[]): WantedChoices[] =>
  [...wanted].sort((a, b) => compare(keyOf(a.test), keyOf(b.test)))

/**
 * The problem of a retest plan. Wanted are the tests; places are the slots in order of time. Where bookings may move, the
 * first level is that none is lost.
 * In: tests in the order of a plan with their choices, all slots, the first day of the period and today.
 */
export function retestProblem(
  tests: readonly WantedChoices[],
  slots: readonly OpenSlot[],
  { from, today }: { from: PlainDate; today: PlainDate },
): PlanProblem {
  const places = [...slots].sort((a, b) => a.time.from - b.time.from || compare(a.slotId, b.slotId))
  const placeOf = new Map(places.map(({ slotId }, at) => [slotId, `s${at + 1}`]))
  const rows: Row[] = []
  for (const [at, { test, choices }] of tests.entries()) {
    const allowed = choices.filter(({ refused }) => refused.length === 0).map(({ slot }) => slot)
    for (const slot of allowed.sort((a, b) => a.time.from - b.time.from || compare(a.slotId, b.slotId))) {
      const pair = { id: String(rows.length + 1), wanted: `t${at + 1}`, place: placeOf.get(slot.slotId)! }
      rows.push({ pair, test, slot })
    }
  }
  return {
    kind: 'retests',
    wanted: tests.map(({ test }, at) => ({
      id: `t${at + 1}`,
      candidateId: test.candidateId,
      standard: test.standard,
      kind: test.kind,
      due: test.due,
      earliest: test.earliest,
      needsReview: test.needsReview,
      bookingId: test.booked?.bookingId ?? null,
      bookedSlotId: test.booked?.slotId ?? null,
      fills: test.fills,
    })),
    places: places.map(({ slotId, testDayId, day, graderId, time }, at) => ({
      id: `s${at + 1}`,
      slotId,
      testDayId,
      day,
      graderId,
      startsAt: new Date(time.from).toISOString(),
      endsAt: new Date(time.to).toISOString(),
    })),
    pairs: rows.map(({ pair }) => pair),
    atMost: setsOf(rows),
    levels: levelsOf(
      rows,
      tests.map(({ test }) => test),
      from,
      today,
    ),
  }
}

const keyOf = ({ due, candidateId, standard }: WantedTest): string =>
  `${due ?? '9999-12-31'} ${candidateId} ${standard}`

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

function levelsOf(rows: readonly Row[], tests: readonly WantedTest[], from: PlainDate, today: PlainDate): Level[] {
  const level = (name: string, sense: 'max' | 'min', value: (row: Row) => number): Level => ({
    name,
    sense,
    constant: 0,
    terms: rows.map((row) => [row.pair.id, value(row)] as const).filter(([, coefficient]) => coefficient !== 0),
  })
  const lateBy = ({ test: { due }, slot: { day } }: Row) => (due === null ? 0 : Math.max(0, daysBetween(due, day)))
  const isInTime = (row: Row) => lateBy(row) === 0 || row.test.due! < today
  const names = RETEST_LEVELS
  return [
    ...(tests.some(({ booked }) => booked !== null)
      ? [level(names.kept, 'max', ({ test }) => (test.booked === null ? 0 : 1))]
      : []),
    level(names.byDue, 'max', (row) => (isInTime(row) ? 1 : 0)),
    level(names.placed, 'max', () => 1),
    level(names.posts, 'max', ({ test: { fills }, slot }) => (fills && slot.day < fills.before ? fills.chance : 0)),
    level(names.late, 'min', lateBy),
    level(names.moved, 'min', ({ test: { booked }, slot }) => (booked && booked.slotId !== slot.slotId ? 1 : 0)),
    level(names.early, 'min', ({ slot }) => daysBetween(from, slot.day)),
  ]
}

/** Two tests a soldier and day; half an hour between them; nobody in two places, as candidate, sponsor or grader. */
function setsOf(rows: readonly Row[]): AtMost[] {
  const ofDay = new Map<string, Row[]>()
  const own = new Map<string, Presence[]>()
  const anywhere = new Map<string, Presence[]>()
  const bookedThatDay = new Map<string, number>()
  for (const row of rows) {
    const { test, slot } = row
    const key = `${test.candidateId} ${slot.day}`
    put(ofDay, key, row)
    if (!bookedThatDay.has(key)) {
      const fixed = test.prospect.bookings.filter(({ day, id }) => day === slot.day && id !== test.booked?.bookingId)
      bookedThatDay.set(key, fixed.length)
    }
    const { from, to } = slot.time
    put(own, test.candidateId, { row, from, to: to + MINUTES_APART * 60_000 })
    const sponsor = sponsorOn(test.prospect.dossier.sponsorships, slot.day)
    for (const who of new Set([test.candidateId, sponsor, slot.graderId])) {
      if (who !== null) put(anywhere, who, { row, from, to })
    }
  }
  const days = [...ofDay].map(([key, list]) => ({ list, max: Math.max(0, MOST_A_DAY - bookedThatDay.get(key)!) }))
  const presences = [...own.values(), ...anywhere.values()].flatMap(togetherAt).map((list) => ({ list, max: 1 }))
  const seen = new Set<string>()
  return [...days, ...presences].flatMap(({ list, max }): AtMost[] => {
    const pairs = list.map(({ pair }) => pair.id)
    const key = `${max} ${pairs.join(' ')}`
    const decides =
      new Set(list.map(({ pair }) => pair.wanted)).size > max && new Set(list.map(({ pair }) => pair.place)).size > max
    if (!decides || seen.has(key)) return []
    seen.add(key)
    return [{ pairs, max }]
  })
}

interface Presence {
  readonly row: Row
  readonly from: number
  readonly to: number
}

/** The largest groups of presences that share an instant: at the start of each, all that are under way. */
function togetherAt(presences: readonly Presence[]): Row[][] {
  const byStart = [...presences].sort((a, b) => a.from - b.from)
  const starts = [...new Set(byStart.map(({ from }) => from))]
  let underWay: Presence[] = []
  let next = 0
  return starts.map((start) => {
    underWay = underWay.filter(({ to }) => to > start)
    while (next < byStart.length && byStart[next]!.from === start) underWay.push(byStart[next++]!)
    return underWay.map(({ row }) => row)
  })
}

function put<Value>(lists: Map<string, Value[]>, key: string, value: Value): void {
  const list = lists.get(key)
  if (list) list.push(value)
  else lists.set(key, [value])
}
