import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { expectFigures } from '../../support/by-the-letter/expect-figures.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = Number(process.env.STEPS ?? 80)
const CHECK_EVERY = 20
const SEEDS = process.env.SEEDS?.split(',').map(Number) ?? [3]

/** The same random events as for measures and credits; here for all other figures. */
describe.each(SEEDS)('whatever happens (seed %i)', (seed) => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
  })
  afterAll(() => test.close())

  it('figures are a recount of the sheets, and no tally holds what no sheet says', async () => {
    const walk = await beginWalk(test, seededRandom(seed))
    for (let step = 1; step <= STEPS; step++) {
      await walk.step()
      if (step % CHECK_EVERY === 0) await expectFigures(test, [{}, walk.filter(), walk.filter()])
    }
    await expectFigures(test, [
      ...walk.units.map((unitId) => ({ unitId })),
      ...Array.from({ length: 10 }, () => walk.filter()),
    ])
    const [{ stale }] = (await test.sql<{ stale: number }>(`
      SELECT count(*)::int AS stale FROM tally t WHERE attempts = 0 AND (passes + recorded + stopped > 0
        OR 0 < ANY (measures) OR 0 < ANY (faults) OR 0 < ANY (readings)
        OR EXISTS (SELECT FROM person_tally p WHERE p.tally_id = t.id AND p.attempts > 0))`)) as [{ stale: number }]
    expect(stale).toBe(0)
  })
})
