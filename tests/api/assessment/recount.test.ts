import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { expectConsistent } from '../../support/by-the-letter/expect-consistent.ts'
import { expectSettled } from '../../support/by-the-letter/expect-settled.ts'
import { beginMending } from '../../support/mending.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = 75
const CHECK_EVERY = 15
const SEEDS = [1, 2, 3, 4]
/** From this seed on the office mends, too. */
const MENDING_FROM = 3

/**
 * Sheets in any order, late ones, voids, seconds, practice, amendments, decisions, awards, withdrawals, moves, corrections
 * of the past, suspensions, new terms and versions, at random; and what an office mends: entries corrected and taken back,
 * sponsorships ended, soldiers merged and parted again, files taken in, changes tried out.
 */
describe.each(SEEDS)('whatever happens (seed %i)', (seed) => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
  })
  afterAll(() => test.close())

  it('what is stored and counted is what the rules make of what was entered', async () => {
    const random = seededRandom(seed)
    const walk = await beginWalk(test, random)
    const mending = seed >= MENDING_FROM ? await beginMending(test, walk, random) : null
    const done: string[] = []
    for (let step = 1; step <= STEPS; step++) {
      done.push(await (mending && step % 2 === 0 ? mending : walk).step())
      if (step % CHECK_EVERY !== 0) continue
      await expectAll([{}, walk.filter(), walk.filter()]).catch((error: Error) => {
        throw new Error(`After these steps: ${done.slice(-CHECK_EVERY).join('; ')}`, { cause: error })
      })
    }
    const everyUnit = walk.units.map((unitId) => ({ unitId }))
    const edges = [
      { from: '2026-01-01', to: '2026-12-31' },
      { from: '2026-02-28', to: '2026-03-01' },
      { from: '2025-12-31', to: '2027-01-01' },
      { to: '2026-03-31' },
      { from: '2026-03-01' },
    ]
    const others = Array.from({ length: 20 }, () => walk.filter())
    await expectAll([...everyUnit, ...edges, ...others])
    expect(await statesOf()).toEqual(expect.arrayContaining(['counted', 'held']))
  })

  const expectAll = async (filters: Parameters<typeof expectConsistent>[1]) => {
    await expectSettled(test)
    await expectConsistent(test, filters)
  }

  const statesOf = async () =>
    (await test.sql<{ state: string }>('SELECT DISTINCT state FROM sheet ORDER BY 1')).map(({ state }) => state)
})
