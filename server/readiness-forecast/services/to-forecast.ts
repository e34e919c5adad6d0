import type { ReadinessForecast } from '../../contract/readiness-forecast/readiness-forecast.ts'
import { progressOn } from '../../domain/certification/status.ts'
import { certifiedChance } from '../../domain/readiness-forecast/certified-chance.ts'
import { countForecast } from '../../domain/readiness-forecast/count-forecast.ts'
import { postsAtOnce } from '../../domain/readiness-forecast/posts-at-once.ts'
import type { NeedRow } from '../db/needs.db.ts'
import type { SoldierRow, TestRow } from '../db/soldiers-ahead.db.ts'
import { attended, type Gathered } from './gather-ahead.ts'

/** In units of more than this only the numbers between certain and impossible are listed. */
const MOST_LISTED = 1_000

/** The forecast of what was gathered; `testsOf` says which tests a soldier takes, those booked unless something else is supposed. */
export function toForecast(
  gathered: Gathered,
  needs: readonly NeedRow[],
  testsOf: (soldier: SoldierRow) => readonly TestRow[] = attended,
): ReadinessForecast {
  const { filter, rows } = gathered
  const withTests = rows.soldiers.map((soldier) => ({ soldier, tests: testsOf(soldier) }))
  const chances = withTests.map(({ soldier, tests }) => chanceOf(gathered, soldier, tests))
  const { required, expected, low, high, atLeast } = countForecast([
    ...new Array<number>(rows.settled).fill(1),
    ...chances,
    ...new Array<number>(rows.required - rows.settled - rows.soldiers.length).fill(0),
  ])
  const bases = withTests.flatMap(({ soldier, tests }) =>
    tests.map((test) => gathered.chancesOf(soldier.soldierId, test).basis),
  )
  const tests = {
    model: bases.filter((basis) => basis === 'model').length,
    baseline: bases.filter((basis) => basis === 'baseline').length,
  }
  const posts = postsAtOnce(needs)
  return {
    unitId: filter.unitId ?? null,
    certification: filter.certification,
    asOf: filter.asOf,
    on: filter.on,
    required,
    expected,
    low,
    high,
    atLeast: atLeast
      .map((chance, n) => ({ n, chance }))
      .filter(({ n, chance }) => n > 0 && (required <= MOST_LISTED || (chance > 0 && chance < 1))),
    basis: basisOf(tests),
    certifiedNow: rows.certifiedNow,
    lapsing: rows.lapsing,
    booked: withTests.filter((one) => one.tests.length > 0).length,
    tests,
    need:
      needs.length === 0
        ? null
        : {
            ceremonies: needs.map(({ id, title, posts: asked }) => ({ id, title, posts: asked })),
            posts,
            chance: atLeast[posts] ?? 0,
          },
  }
}

function basisOf({ model, baseline }: ReadinessForecast['tests']): ReadinessForecast['basis'] {
  if (model + baseline === 0) return 'record'
  if (baseline === 0) return 'model'
  return model === 0 ? 'baseline' : 'mixed'
}

function chanceOf(gathered: Gathered, soldier: SoldierRow, tests: readonly TestRow[]): number {
  const { certification, breaks, filter, versionOn } = gathered
  const known = tests.map((test) => ({ test, ...gathered.chancesOf(soldier.soldierId, test) }))
  return certifiedChance(
    certification,
    breaks,
    {
      progress: progressOn(certification, breaks, soldier.history, filter.asOf),
      suspensions: soldier.history.suspensions,
      reviews: soldier.history.reviews,
      tests: known.map(({ test: { standard, day }, pass }) => ({
        standard,
        day,
        version: versionOn(standard, day),
        pass,
      })),
      weights: new Map(known.map(({ test, weights }) => [test.standard, weights])),
    },
    filter.on,
  )
}
