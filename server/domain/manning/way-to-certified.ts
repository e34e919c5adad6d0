import type { PlainDate } from '../calendar/plain-date.ts'
import { addDays } from '../calendar/plain-date.ts'

export interface TestAhead {
  readonly standard: string
  readonly on: PlainDate
  readonly booked: boolean
  readonly testDayId: string
}

export interface WayFacts {
  /** Every standard the certification requires. */
  readonly required: readonly string[]
  /** Kept GOs that count today, and through which day. */
  readonly toward: readonly { readonly standard: string; readonly countsUntil: PlainDate }[]
  /** Open retests: not before `earliest`, and not at all before a review that is due. */
  readonly retests: readonly {
    readonly standard: string
    readonly earliest: PlainDate
    readonly needsReview: boolean
  }[]
  /** Bookings of the soldier that are open. */
  readonly bookings: readonly { readonly standard: string; readonly on: PlainDate; readonly testDayId: string }[]
  /** The required standards are taken in their order: none before the day of the one ahead of it. */
  readonly inOrder: boolean
  /** How long a GO is kept. */
  readonly windowDays: number
}

export interface OpenTestDay {
  readonly id: string
  readonly on: PlainDate
}

/**
 * The tests that would certify a soldier before a day, were all of them passed; null where there is no such way.
 *
 * Each standard that is not in is taken on the first day the soldier is booked for it, else on the first test day that
 * takes anyone still (`open`, of a free slot), from today and from the earliest day of an open retest on, and before `day`.
 * A booking before that earliest day would be held, so it is none. A kept GO that would have aged out by the last of the
 * tests is taken again. In: days as `YYYY-MM-DD`, `open` in order. Out: in order of day, then as required.
 */
export function wayToCertified(
  facts: WayFacts,
  open: readonly OpenTestDay[],
  today: PlainDate,
  day: PlainDate,
): TestAhead[] | null {
  const kept = new Map(facts.toward.map(({ standard, countsUntil }) => [standard, countsUntil]))
  for (;;) {
    const missing = facts.required.filter((code) => !kept.has(code))
    const tests = testsFor(missing, facts, open, today, day)
    if (tests === null || tests.length === 0) return null
    const last = tests
      .map(({ on }) => on)
      .toSorted()
      .at(-1)!
    if (tests.some(({ on }) => addDays(on, facts.windowDays) < last)) return null
    const aged = [...kept].filter(([, countsUntil]) => countsUntil < last)
    if (aged.length === 0) return tests.toSorted(byDay)
    for (const [code] of aged) kept.delete(code)
  }
}

const byDay = (one: { on: PlainDate }, other: { on: PlainDate }): number =>
  one.on < other.on ? -1 : one.on > other.on ? 1 : 0

function testsFor(
  missing: readonly string[],
  facts: WayFacts,
  open: readonly OpenTestDay[],
  today: PlainDate,
  day: PlainDate,
): TestAhead[] | null {
  const tests: TestAhead[] = []
  for (const standard of missing) {
    const from = facts.inOrder ? (tests.at(-1)?.on ?? today) : today
    const test = firstTest(facts, open, standard, from, day)
    if (test === null) return null
    tests.push(test)
  }
  return tests
}

function firstTest(
  { retests, bookings }: WayFacts,
  open: readonly OpenTestDay[],
  standard: string,
  from: PlainDate,
  day: PlainDate,
): TestAhead | null {
  const retest = retests.find((one) => one.standard === standard)
  if (retest?.needsReview) return null
  const earliest = retest && retest.earliest > from ? retest.earliest : from
  const inTime = (on: PlainDate) => on >= earliest && on < day
  const booked = bookings.filter((one) => one.standard === standard && inTime(one.on)).sort(byDay)[0]
  if (booked) return { ...booked, booked: true }
  const possible = open.find(({ on }) => inTime(on))
  return possible ? { standard, on: possible.on, booked: false, testDayId: possible.id } : null
}
