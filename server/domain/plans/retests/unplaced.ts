import { sponsorOn } from '../../booking/sponsor-on.ts'
import type { BookingRule } from '../../booking/types.ts'
import type { PlainDate } from '../../calendar/plain-date.ts'
import type { PlanProblem } from '../problem.ts'
import type { WantedChoices } from './retest-problem.ts'
import type { Choice } from './types.ts'

/**
 * Why a test has no slot. `taken`: others have every slot it may go into. `clash`: one is left, but not beside the other
 * tests of candidate or sponsor. Else no slot may be given: what stands in the way of every one of them.
 */
export type UnplacedReason =
  | 'no slot'
  | 'taken'
  | 'clash'
  | 'needs review'
  | 'not before'
  | 'sponsor never free'
  | 'only coached graders'
  | 'no grader'
  | 'refused'

export interface Unplaced {
  readonly wanted: string
  readonly reason: UnplacedReason
  /** Who has the slots it may go into. */
  readonly takenBy: readonly string[]
  /** The sponsors who are never free. */
  readonly sponsorIds: readonly string[]
  readonly earliest: PlainDate | null
  /** What stands in the way somewhere. */
  readonly rules: readonly BookingRule[]
}

const SPONSOR: readonly BookingRule[] = [
  'no-sponsor',
  'sponsor-absent',
  'sponsor-busy',
  'sponsor-not-certified',
  'sponsor-is-candidate',
]
const COACHED: readonly BookingRule[] = ['grader-coached', 'grader-is-candidate']
const GRADER: readonly BookingRule[] = [...COACHED, 'grader-not-qualified', 'grader-absent', 'grader-on-ceremony']

/** Reasons that hold of a slot, the first that holds of every slot is told. */
const EVERYWHERE: readonly { readonly reason: UnplacedReason; readonly rules: readonly BookingRule[] }[] = [
  { reason: 'needs review', rules: ['review-missing'] },
  { reason: 'not before', rules: ['too-early', 'not-needed'] },
  { reason: 'sponsor never free', rules: SPONSOR },
  { reason: 'only coached graders', rules: COACHED },
  { reason: 'no grader', rules: GRADER },
]

/** Why each wanted test that is in no pair of the answer is not placed. In: tests in the order of the problem. */
export function unplacedOf(
  problem: PlanProblem,
  answer: readonly string[],
  tests: readonly WantedChoices[],
): Unplaced[] {
  const chosen = new Set(answer)
  const taken = problem.pairs.filter(({ id }) => chosen.has(id))
  const placed = new Set(taken.map(({ wanted }) => wanted))
  const holder = new Map(taken.map(({ place, wanted }) => [place, wanted]))
  return problem.wanted.flatMap(({ id }, at): Unplaced[] => {
    if (placed.has(id)) return []
    const { test, choices } = tests[at]!
    const open = problem.pairs.filter(({ wanted }) => wanted === id).map(({ place }) => place)
    const base = { wanted: id, takenBy: [], sponsorIds: [], earliest: test.earliest, rules: rulesOf(choices) }
    if (open.length > 0) {
      const takenBy = [...new Set(open.flatMap((place) => holder.get(place) ?? []))]
      return [{ ...base, reason: open.every((place) => holder.has(place)) ? 'taken' : 'clash', takenBy }]
    }
    if (choices.length === 0) return [{ ...base, reason: 'no slot' }]
    const reason = EVERYWHERE.find(({ rules }) => everySlot(choices, rules))?.reason ?? afterEarly(choices)
    const sponsors = choices.map(({ slot }) => sponsorOn(test.prospect.dossier.sponsorships, slot.day))
    const sponsorIds = reason === 'sponsor never free' ? [...new Set(sponsors.filter((one) => one !== null))] : []
    return [{ ...base, reason, sponsorIds }]
  })
}

/** Of the slots from the earliest day on. */
function afterEarly(choices: readonly Choice[]): UnplacedReason {
  const later = choices.filter(({ refused }) => !refused.includes('too-early') && !refused.includes('not-needed'))
  return EVERYWHERE.find(({ rules }) => everySlot(later, rules))?.reason ?? 'refused'
}

const everySlot = (choices: readonly Choice[], rules: readonly BookingRule[]): boolean =>
  choices.every(({ refused }) => refused.some((rule) => rules.includes(rule)))

const rulesOf = (choices: readonly Choice[]): BookingRule[] => [...new Set(choices.flatMap(({ refused }) => refused))]

/** A change that somebody could make, and how many more tests it would place at most. */
export type Change = { readonly places: number } & (
  | { readonly change: 'more slots'; readonly testDayId: string; readonly on: PlainDate }
  | { readonly change: 'test day'; readonly standard: string; readonly by: PlainDate | null }
  | { readonly change: 'another grader' }
  | { readonly change: 'sponsor there'; readonly sponsorId: string }
)

/**
 * The one change that would place most of what is not placed; null where none of these would place any. Slots on a day
 * that there is come before a new day that places as many.
 */
export function bestChange(
  problem: PlanProblem,
  answer: readonly string[],
  tests: readonly WantedChoices[],
  through: PlainDate,
): Change | null {
  const chosen = new Set(answer)
  const taken = problem.pairs.filter(({ id }) => chosen.has(id))
  const placed = new Set(taken.map(({ wanted }) => wanted))
  const usedPlaces = new Set(taken.map(({ place }) => place))
  const slotIds = new Map(problem.places.map(({ id, slotId }) => [slotId as string, id]))
  const left = tests.filter((_, at) => !placed.has(problem.wanted[at]!.id))
  const isFree = ({ slot }: Choice) => !usedPlaces.has(slotIds.get(slot.slotId)!)
  const changes = [
    ...moreSlots(left),
    ...newDays(left, through),
    { change: 'another grader' as const, places: matched(left, (choice) => isFree(choice) && only(choice, GRADER)) },
    ...sponsorsThere(left, isFree),
  ]
  const best = changes.reduce<Change | null>((most, one) => (one.places > (most?.places ?? 0) ? one : most), null)
  return best
}

const only = ({ refused }: Choice, rules: readonly BookingRule[]): boolean =>
  refused.length > 0 && refused.every((rule) => rules.includes(rule))

function moreSlots(left: readonly WantedChoices[]): Change[] {
  const days = new Map(left.flatMap(({ choices }) => choices.map(({ slot }) => [slot.testDayId, slot.day] as const)))
  return [...days].map(([testDayId, on]) => ({
    change: 'more slots',
    testDayId,
    on,
    places: left.filter(({ choices }) =>
      choices.some(({ slot, refused }) => slot.testDayId === testDayId && refused.length === 0),
    ).length,
  }))
}

function newDays(left: readonly WantedChoices[], through: PlainDate): Change[] {
  const could = left.filter(({ test }) => !test.needsReview && (test.earliest === null || test.earliest <= through))
  return [...new Set(could.map(({ test }) => test.standard))].sort().map((standard) => {
    const those = could.filter(({ test }) => test.standard === standard)
    const dues = those.flatMap(({ test }) => test.due ?? []).sort()
    return { change: 'test day', standard, by: dues.at(-1) ?? null, places: those.length }
  })
}

function sponsorsThere(left: readonly WantedChoices[], isFree: (choice: Choice) => boolean): Change[] {
  const sponsorIn = ({ test }: WantedChoices, { slot }: Choice) =>
    sponsorOn(test.prospect.dossier.sponsorships, slot.day)
  const away = left.flatMap((one) =>
    one.choices.filter((choice) => only(choice, ['sponsor-absent'])).flatMap((choice) => sponsorIn(one, choice) ?? []),
  )
  return [...new Set(away)].sort().map((sponsorId) => ({
    change: 'sponsor there',
    sponsorId,
    places: matched(
      left,
      (choice, one) => isFree(choice) && only(choice, ['sponsor-absent']) && sponsorIn(one, choice) === sponsorId,
    ),
  }))
}

/** How many of these tests get a slot each, of those they could have (augmenting paths, Kuhn). */
function matched(tests: readonly WantedChoices[], could: (choice: Choice, test: WantedChoices) => boolean): number {
  const options = tests.map((one) => one.choices.filter((choice) => could(choice, one)).map(({ slot }) => slot.slotId))
  const holder = new Map<string, number>()
  const give = (test: number, tried: Set<string>): boolean =>
    options[test]!.some((slot) => {
      if (tried.has(slot)) return false
      tried.add(slot)
      const before = holder.get(slot)
      return (before === undefined || give(before, tried)) && Boolean(holder.set(slot, test))
    })
  return options.filter((_, test) => give(test, new Set())).length
}
