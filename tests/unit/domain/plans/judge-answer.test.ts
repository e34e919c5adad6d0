import { describe, expect, it } from 'vitest'
import { judgeAnswer } from '../../../../server/domain/plans/judge-answer.ts'
import type { PlanProblem } from '../../../../server/domain/plans/problem.ts'

const PROBLEM: PlanProblem = {
  kind: 'retests',
  wanted: [{ id: 'a' }, { id: 'b' }, { id: 'c' }],
  places: [{ id: 'x' }, { id: 'y' }, { id: 'z' }],
  pairs: [
    { id: '1', wanted: 'a', place: 'x' },
    { id: '2', wanted: 'a', place: 'y' },
    { id: '3', wanted: 'b', place: 'y' },
    { id: '4', wanted: 'c', place: 'z' },
  ],
  atMost: [{ pairs: ['1', '3', '4'], max: 2 }],
  levels: [
    { name: 'placed', sense: 'max', constant: 1, terms: ['1', '2', '3', '4'].map((id) => [id, 2]) },
    {
      name: 'even',
      sense: 'min',
      squares: [
        { base: 1, pairs: ['1', '3'] },
        { base: 0.5, pairs: [] },
      ],
    },
  ],
}

describe('judging an answer', () => {
  it('adds up each level of an answer that can be done', () => {
    expect(judgeAnswer(PROBLEM, ['1', '3'])).toEqual({ broken: [], values: [5, 9.25] })
    expect(judgeAnswer(PROBLEM, [])).toEqual({ broken: [], values: [1, 1.25] })
  })

  it.each([
    [['9'], 'There is no pair 9.'],
    [['1', '1'], 'Pair 1 is named more than once.'],
    [['1', '2'], 'Wanted a is placed more than once.'],
    [['2', '3'], 'Place y is given more than once.'],
    [['1', '3', '4'], 'Of set 1 in atMost 3 pairs are taken; it allows 2.'],
  ])('says what %j breaks', (answer, sentence) => {
    expect(judgeAnswer(PROBLEM, answer).broken).toEqual([sentence])
  })
})
