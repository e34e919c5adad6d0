import type { PlanItem, PlanProblem } from '../problem.ts'
import { RETEST_LEVELS } from './retest-problem.ts'

/** What is not so any more since a problem was stated. Items are those of the older problem, or where they are new of the newer. */
export type ProblemChange =
  | { readonly what: 'test gone' | 'new test' | 'test changed'; readonly test: PlanItem }
  | { readonly what: 'slot gone' | 'new slot' | 'slot changed'; readonly slot: PlanItem }
  | { readonly what: 'not possible' | 'possible now'; readonly test: PlanItem; readonly slot: PlanItem }
  | { readonly what: 'fills a post now' | 'fills no post'; readonly test: PlanItem }
  | { readonly what: 'chance'; readonly test: PlanItem; readonly tenths: number; readonly before: number }
  | { readonly what: 'days' }

/**
 * What two statements of the same retest plan differ in; tests that were accepted, the slots they went to, and what these rule
 * out are left out of both. What rules out a chosen pair comes first. A chance that a post is filled has changed where it would be shown
 * as another one; a new fit that changes it by less is no news.
 */
export function changesBetween(
  before: PlanProblem,
  now: PlanProblem,
  chosen: readonly string[],
  accepted: readonly string[],
): ProblemChange[] {
  const settled = before.pairs.filter(({ id }) => accepted.includes(id))
  const settledTests = new Set(settled.map(({ wanted }) => wanted))
  const settledSlots = new Set(settled.map(({ place }) => place))
  const [old, fresh] = [indexed(before), indexed(now)]
  const skipTests = new Set(before.wanted.filter(({ id }) => settledTests.has(id)).map(testKey))
  const skipSlots = new Set(before.places.filter(({ id }) => settledSlots.has(id)).map(slotKey))
  const tests = changesOf(old.tests, fresh.tests, skipTests).map(
    ({ what, item }): ProblemChange => ({
      what: ({ gone: 'test gone', new: 'new test', changed: 'test changed' } as const)[what],
      test: item,
    }),
  )
  const slots = changesOf(old.slots, fresh.slots, skipSlots).map(
    ({ what, item }): ProblemChange => ({
      what: ({ gone: 'slot gone', new: 'new slot', changed: 'slot changed' } as const)[what],
      slot: item,
    }),
  )
  const inBoth = (key: string, other: Indexed) => {
    const [test, slot] = key.split('|') as [string, string]
    return !skipTests.has(test) && !skipSlots.has(slot) && other.tests.has(test) && other.slots.has(slot)
  }
  const changedPair = (what: 'not possible' | 'possible now', key: string): ProblemChange => {
    const [test, slot] = key.split('|') as [string, string]
    return { what, test: old.tests.get(test)!, slot: old.slots.get(slot)! }
  }
  const used = usedUp(before, accepted)
  const lost = [...old.pairs].flatMap(([key, id]) =>
    fresh.pairs.has(key) || used.has(id) || !inBoth(key, fresh) ? [] : [key],
  )
  const gained = [...fresh.pairs.keys()].filter((key) => !old.pairs.has(key) && inBoth(key, old))
  const isChosen = (key: string) => chosen.includes(old.pairs.get(key)!)
  const all = [
    ...lost.filter(isChosen).map((key) => changedPair('not possible', key)),
    ...tests,
    ...slots,
    ...lost.filter((key) => !isChosen(key)).map((key) => changedPair('not possible', key)),
    ...gained.map((key) => changedPair('possible now', key)),
  ]
  if (all.length > 0 || settled.length > 0) return all
  const fills = before.wanted.flatMap((test) => fillChange(test, fresh.tests.get(testKey(test))!))
  return fills.length > 0 || sameLevels(before, now) ? fills : [{ what: 'days' }]
}

/** Pairs that the accepted ones leave no room for, which is no news. */
function usedUp({ atMost }: PlanProblem, accepted: readonly string[]): Set<string> {
  const ids = new Set(accepted)
  const full = atMost.filter(({ pairs, max }) => pairs.filter((id) => ids.has(id)).length >= max)
  return new Set(accepted.length === 0 ? [] : full.flatMap(({ pairs }) => pairs))
}

interface Indexed {
  readonly tests: ReadonlyMap<string, PlanItem>
  readonly slots: ReadonlyMap<string, PlanItem>
  /** Id by test and slot, with a bar between. */
  readonly pairs: ReadonlyMap<string, string>
}

const testKey = ({ candidateId, standard }: PlanItem): string => `${candidateId} ${standard}`
const slotKey = ({ slotId }: PlanItem): string => String(slotId)

function indexed({ wanted, places, pairs }: PlanProblem): Indexed {
  const testOf = new Map(wanted.map((one) => [one.id, testKey(one)]))
  const slotOf = new Map(places.map((one) => [one.id, slotKey(one)]))
  return {
    tests: new Map(wanted.map((one) => [testKey(one), one])),
    slots: new Map(places.map((one) => [slotKey(one), one])),
    pairs: new Map(pairs.map(({ id, wanted: test, place }) => [`${testOf.get(test)}|${slotOf.get(place)}`, id])),
  }
}

function changesOf(
  old: ReadonlyMap<string, PlanItem>,
  fresh: ReadonlyMap<string, PlanItem>,
  skipped: ReadonlySet<string>,
): { what: 'gone' | 'new' | 'changed'; item: PlanItem }[] {
  const gone = [...old].filter(([key]) => !skipped.has(key) && !fresh.has(key))
  const changed = [...old].filter(([key, item]) => {
    const other = fresh.get(key)
    return !skipped.has(key) && other !== undefined && factsOf(item) !== factsOf(other)
  })
  const added = [...fresh].filter(([key]) => !skipped.has(key) && !old.has(key))
  return [
    ...gone.map(([, item]) => ({ what: 'gone' as const, item })),
    ...changed.map(([, item]) => ({ what: 'changed' as const, item })),
    ...added.map(([, item]) => ({ what: 'new' as const, item })),
  ]
}

/** Ids are only the order, and what a post needs shows in the levels. */
const factsOf = ({ id: _, fills: __, ...facts }: PlanItem): string => JSON.stringify(Object.entries(facts).sort())

interface Fills {
  readonly before: string
  readonly chance: number
  readonly basis: string
}

/** A chance as it is shown, in tenths. */
const tenthsOf = ({ chance }: Fills): number => Math.round(chance * 10)

/** What has changed in what passing a test would fill. */
function fillChange(test: PlanItem, now: PlanItem): ProblemChange[] {
  const [was, is] = [test.fills, now.fills] as [Fills | null, Fills | null]
  if (!was || !is) return was === is ? [] : [{ what: is ? 'fills a post now' : 'fills no post', test }]
  if (was.before !== is.before) return [{ what: 'fills a post now', test: now }]
  const [before, tenths] = [tenthsOf(was), tenthsOf(is)]
  return before === tenths ? [] : [{ what: 'chance', test, before, tenths }]
}

/** Whether all levels but the one that chances make are the same. */
const sameLevels = (a: PlanProblem, b: PlanProblem): boolean => {
  const [own, other] = [a, b].map(({ levels }) => levels.filter(({ name }) => name !== RETEST_LEVELS.posts))
  return JSON.stringify(own) === JSON.stringify(other)
}
