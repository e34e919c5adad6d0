import { expect, test } from 'vitest'
import { judgeWorld } from './support/judge-world.ts'
import { WORLDS } from './support/worlds.ts'

/*
 * A small set of each world in every run; `npm run simulate` does the full one and reports. Seeded, so every run has the same
 * figures; the bounds leave room for how few units these are.
 */
test.each(WORLDS)('$name: forecasts are nearly as good as the truth allows', (world) => {
  const verdict = judgeWorld({ ...world, candidates: 120 }, 2, 7)
  expect(verdict.check.score.brier).toBeLessThan(verdict.checkOfTruth.score.brier + 0.02)
  expect(verdict.check.score.brier).toBeLessThan(verdict.check.byKind.brier + 0.02)
  expect(verdict.check.score.brier).toBeLessThan(verdict.check.byLast.brier)
  expect(verdict.coverage).toBeGreaterThan(0.85)
})
