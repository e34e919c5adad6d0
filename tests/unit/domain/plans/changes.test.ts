import { describe, expect, it } from 'vitest'
import type { PlanProblem } from '../../../../server/domain/plans/problem.ts'
import { changesBetween } from '../../../../server/domain/plans/retests/changes.ts'
import { RETEST_LEVELS } from '../../../../server/domain/plans/retests/retest-problem.ts'

const fills = (chance: number, before = '2026-07-01') => ({ before, chance, basis: 'model' })

/** One test, one slot; placed early or not, and worth the chance that it fills a post. */
const problem = (filled: ReturnType<typeof fills> | null, days = 3): PlanProblem => ({
  kind: 'retests',
  wanted: [{ id: 't1', candidateId: 'c', standard: 'rifle', due: '2026-06-20', fills: filled }],
  places: [{ id: 's1', slotId: 's', day: '2026-06-18' }],
  pairs: [{ id: 'p1', wanted: 't1', place: 's1' }],
  atMost: [],
  levels: [
    { name: RETEST_LEVELS.posts, sense: 'max', constant: 0, terms: [['p1', filled?.chance ?? 0]] },
    { name: RETEST_LEVELS.early, sense: 'min', constant: 0, terms: [['p1', days]] },
  ],
})

const changes = (before: PlanProblem, now: PlanProblem) => changesBetween(before, now, ['p1'], [])

describe('what a retest plan rests on', () => {
  it('is the same after a new fit that changes a chance by less than is shown', () => {
    expect(changes(problem(fills(0.712)), problem(fills(0.688)))).toEqual([])
    expect(changes(problem(null), problem(null))).toEqual([])
  })

  it('has changed where a chance would be shown as another, and it says whose', () => {
    expect(changes(problem(fills(0.712)), problem(fills(0.612)))).toMatchObject([
      { what: 'chance', before: 7, tenths: 6, test: { candidateId: 'c' } },
    ])
  })

  it('has changed where a test fills a post by now, another one, or none any more', () => {
    expect(changes(problem(null), problem(fills(0.7)))).toMatchObject([{ what: 'fills a post now' }])
    expect(changes(problem(fills(0.7)), problem(fills(0.7, '2026-07-05')))).toMatchObject([
      { what: 'fills a post now' },
    ])
    expect(changes(problem(fills(0.7)), problem(null))).toMatchObject([{ what: 'fills no post' }])
  })

  it('has changed with a level of days', () => {
    expect(changes(problem(null, 3), problem(null, 2))).toEqual([{ what: 'days' }])
  })
})
