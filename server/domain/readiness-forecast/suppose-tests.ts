import type { PlainDate } from '../calendar/plain-date.ts'

/** A test that is booked, or supposed. */
export interface SupposedTest {
  readonly id: string
  readonly testDayId: string | null
  readonly graderId: string | null
  readonly standard: string
  readonly day: PlainDate
  /** Milliseconds since 1970; null: any time that day. */
  readonly at: number | null
}

/** Somebody who is or could be tested. */
export interface SupposedSoldier {
  readonly soldierId: string
  readonly tests: readonly SupposedTest[]
  /** Standards that the soldier lacks and could be tested in, and from when to when: the first day allowed, and due. */
  readonly open: readonly {
    readonly standard: string
    readonly earliest: PlainDate | null
    readonly due: PlainDate | null
  }[]
  readonly isAway: (day: PlainDate) => boolean
}

/** What is supposed beside what is booked. */
export interface Supposed {
  /** Slots more on a day for a standard. */
  readonly more: readonly { readonly day: PlainDate; readonly standard: string; readonly slots: number }[]
  /** Slots fewer on a test day: its last bookings fall away. */
  readonly fewer: readonly { readonly testDayId: string; readonly slots: number }[]
  /** Graders who are away: what is booked with them falls away. */
  readonly away: readonly string[]
  /** What a plan would book. */
  readonly planned: readonly PlannedTest[]
}

/** A test that a plan would book. */
export interface PlannedTest {
  readonly soldierId: string
  /** The booking it moves; null: a new one. */
  readonly movedId: string | null
  /** Null: it moves beyond the day asked about. */
  readonly test: SupposedTest | null
}

/**
 * The tests of each soldier if that were so. What a plan would book counts unless the soldier is away that day or has that test booked
 * by now. Slots more are given to who lacks the standard and has no test of it booked, the first due
 * first and then in order; one test a soldier and day, none before it is allowed. Out: by soldier; and how many slots nobody takes.
 */
export function supposeTests(
  soldiers: readonly SupposedSoldier[],
  { more, fewer, away, planned }: Supposed,
): { tests: ReadonlyMap<string, readonly SupposedTest[]>; free: number } {
  const booked = soldiers.map((soldier) => ({ soldierId: soldier.soldierId, own: withPlanned(soldier, planned) }))
  const all = booked.flatMap(({ own }) => own)
  const fallen = new Set(all.filter(({ graderId }) => graderId !== null && away.includes(graderId)).map(({ id }) => id))
  for (const { testDayId, slots } of fewer) {
    const last = all
      .filter((test) => test.testDayId === testDayId && !fallen.has(test.id))
      .sort((a, b) => (b.at ?? 0) - (a.at ?? 0) || (a.id < b.id ? 1 : -1))
    for (const { id } of last.slice(0, slots)) fallen.add(id)
  }
  const tests = new Map<string, SupposedTest[]>(
    booked.map(({ soldierId, own }) => [soldierId, own.filter(({ id }) => !fallen.has(id))]),
  )
  let free = 0
  for (const { day, standard, slots } of [...more].sort((a, b) => (a.day < b.day ? -1 : 1))) {
    const wanting = soldiers
      .flatMap((soldier) => {
        const lacks = soldier.open.find((one) => one.standard === standard)
        const own = tests.get(soldier.soldierId)!
        const isBusy = own.some((test) => test.standard === standard || test.day === day) || soldier.isAway(day)
        const isAllowed = lacks !== undefined && (lacks.earliest === null || lacks.earliest <= day)
        return isAllowed && !isBusy ? [{ soldierId: soldier.soldierId, due: lacks.due ?? LAST }] : []
      })
      .sort((a, b) => (a.due === b.due ? (a.soldierId < b.soldierId ? -1 : 1) : a.due < b.due ? -1 : 1))
      .slice(0, slots)
    for (const { soldierId } of wanting) {
      const test = { id: `supposed ${standard} ${day}`, testDayId: null, graderId: null, standard, day, at: null }
      tests.set(soldierId, inOrder([...tests.get(soldierId)!, test]))
    }
    free += slots - wanting.length
  }
  return { tests, free }
}

/** The tests of a soldier with what a plan would book, in order. */
function withPlanned({ soldierId, tests, isAway }: SupposedSoldier, planned: readonly PlannedTest[]): SupposedTest[] {
  const own = planned.filter((one) => one.soldierId === soldierId)
  const moved = new Set(own.map(({ movedId }) => movedId))
  const staying = tests.filter(({ id }) => !moved.has(id))
  const added = own.flatMap(({ test }) => {
    const counts = test !== null && !isAway(test.day) && staying.every(({ standard }) => standard !== test.standard)
    return counts ? [test] : []
  })
  return inOrder([...staying, ...added])
}

const inOrder = (tests: readonly SupposedTest[]): SupposedTest[] =>
  [...tests].sort((a, b) => (a.day === b.day ? (a.at ?? 0) - (b.at ?? 0) : a.day < b.day ? -1 : 1))

const LAST = '9999-12-31'
