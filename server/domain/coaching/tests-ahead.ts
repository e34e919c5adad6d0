import type { PlainDate } from '../calendar/plain-date.ts'

interface Status {
  readonly certification: string
  readonly status: string
  readonly required: boolean
  readonly toward: readonly { readonly standard: string }[]
}

interface OfStandard {
  readonly standard: string
}

interface OpenRetest extends OfStandard {
  readonly certification: string
  readonly earliest: PlainDate
  readonly due: PlainDate
}

/** A test that a candidate still has to pass, or is booked for. */
export interface TestAhead<Retest, Booking> {
  readonly certification: string
  readonly standard: string
  readonly retest: Retest | null
  readonly booking: Booking | null
}

/**
 * The tests ahead of a candidate: every open retest, every standard missing for a certification that is required or begun
 * and not in force, and every booking; one a standard, the soonest first (by booking, else by due day, else last).
 * In: statuses, open retests and bookings to come, these in order of day; the standards of each certification.
 */
export function testsAhead<Retest extends OpenRetest, Booking extends OfStandard & { readonly on: PlainDate }>(
  statuses: readonly Status[],
  retests: readonly Retest[],
  bookings: readonly Booking[],
  standardsOf: (certification: string) => readonly string[],
): TestAhead<Retest, Booking>[] {
  const ahead = new Map<string, TestAhead<Retest, Booking>>()
  const add = (certification: string, standard: string, retest: Retest | null) => {
    if (ahead.has(standard)) return
    const booking = bookings.find((one) => one.standard === standard) ?? null
    ahead.set(standard, { certification, standard, retest, booking })
  }
  for (const retest of [...retests].sort((a, b) => compare(a.due, b.due))) {
    add(retest.certification, retest.standard, retest)
  }
  for (const { certification, status, required, toward } of statuses) {
    if (NO_TEST.has(status) || !(required || status === 'part way')) continue
    const kept = new Set(toward.map(({ standard }) => standard))
    for (const standard of standardsOf(certification)) if (!kept.has(standard)) add(certification, standard, null)
  }
  for (const { standard } of bookings) {
    const certification = statuses.find((one) => standardsOf(one.certification).includes(standard))?.certification
    if (certification !== undefined) add(certification, standard, null)
  }
  const day = ({ booking, retest }: TestAhead<Retest, Booking>) => booking?.on ?? retest?.due ?? LAST
  return [...ahead.values()].sort((a, b) => compare(day(a), day(b)))
}

/** Here another test would change nothing. */
const NO_TEST: ReadonlySet<string> = new Set(['certified', 'suspended', 'awaiting approval'])

const LAST = '9999-12-31'

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
