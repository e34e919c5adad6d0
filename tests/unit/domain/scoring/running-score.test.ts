import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { runningScore, scoreSheet } from '../../../../server/domain/scoring/score-sheet.ts'
import type { Marks, ScoredStandard } from '../../../../server/domain/scoring/types.ts'
import { arbitrarySheet } from './arbitrary-sheet.ts'

/** The sheet as it stood after so many calls, with the majors as they end. */
function afterCalls(standard: ScoredStandard, marks: Marks, calls: number): Marks {
  const called = (code: string, trial: number) =>
    standard.calls.slice(0, calls).some((call) => call.measure === code && call.trial === trial)
  return {
    ...marks,
    majors: marks.majors.filter(({ mark, atCall }) => mark === 'NO-GO' && atCall! <= calls),
    minors: marks.minors.map((minor) => ({
      code: minor.code,
      trials: minor.trials.filter((_mark, index) => called(minor.code, index + 1)),
      faults: minor.faults?.filter(({ trial }) => called(minor.code, trial)),
      readings: minor.readings?.filter(({ trial }) => called(minor.code, trial)),
    })),
  }
}

/** The running score after no call, after one, … after the last. */
const played = (standard: ScoredStandard, marks: Marks) =>
  Array.from({ length: standard.calls.length + 1 }, (_, calls) =>
    runningScore(standard, afterCalls(standard, marks, calls)),
  )

describe('the score while a test runs', () => {
  it('never promises what the end does not keep', () => {
    let gos = 0
    let unreachable = 0
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        const end = scoreSheet(standard, marks)
        for (const score of played(standard, marks)) {
          if (end.outcome === 'GO') {
            expect(score.reachable).toBe(true)
            gos += 1
          }
          if (!score.reachable) {
            expect(end.outcome).not.toBe('GO')
            unreachable += 1
          }
          expect(end.go).toBeGreaterThanOrEqual(score.go)
          expect(end.go).toBeLessThanOrEqual(score.go + score.open)
          expect(end.noGo).toBeGreaterThanOrEqual(score.noGo)
        }
      }),
      { numRuns: 500 },
    )
    expect(gos).toBeGreaterThan(0)
    expect(unreachable).toBeGreaterThan(0)
  })

  it('counts down to the minimum and never up', () => {
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        const scores = played(standard, marks)
        scores.forEach((score, calls) => {
          expect(score.go + score.noGo + score.open).toBe(standard.minors.length)
          expect(score.stillNeeded).toBe(Math.max(0, score.minimum! - score.go))
          const stopped = marks.majors.some(({ mark, atCall }) => mark === 'NO-GO' && atCall! <= calls)
          expect(score.reachable).toBe(score.stillNeeded <= score.open && !stopped)
          const before = scores[calls - 1]
          if (!before) return
          expect(score.stillNeeded).toBeLessThanOrEqual(before.stillNeeded)
          expect(score.open).toBeLessThanOrEqual(before.open)
          if (!before.reachable) expect(score.reachable).toBe(false)
        })
      }),
      { numRuns: 300 },
    )
  })

  it('is the score of the sheet as long as the sheet is unfinished', () => {
    fc.assert(
      fc.property(arbitrarySheet, ({ standard, marks }) => {
        const score = scoreSheet(standard, marks)
        fc.pre(score.ending === 'unfinished')
        expect(score).toEqual(runningScore(standard, marks))
        expect(score).not.toHaveProperty('notTested')
      }),
      { numRuns: 100 },
    )
  })
})
