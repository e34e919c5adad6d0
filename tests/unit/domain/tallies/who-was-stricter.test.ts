import { describe, expect, it } from 'vitest'
import { signTest } from '../../../../server/domain/statistics/agreement/sign-test.ts'
import type { FindingsVersion } from '../../../../server/domain/tallies/version-counts.ts'
import { whoWasStricter } from '../../../../server/domain/tallies/who-was-stricter.ts'
import { DEFINITION } from './given.ts'

const of: FindingsVersion = { standard: 's', version: 1, definition: DEFINITION }
const places = DEFINITION.majors.length + DEFINITION.minors.length
const sheet = (graderId: string, marks: string) => ({ of, graderId, marks: marks.padEnd(places, 'G') })

describe('who was stricter', () => {
  it('is told by the measures both decided', () => {
    const found = whoWasStricter([
      { of, sheets: [sheet('a', 'NN'), sheet('b', 'NG')] },
      { of, sheets: [sheet('b', 'GN'), sheet('a', 'NG')] },
      { of, sheets: [sheet('a', 'N-'), sheet('b', 'NN')] },
      { of, sheets: [sheet('a', 'G'), sheet('b', 'G'), sheet('c', 'N')] },
    ])
    expect(found.get('a')).toEqual({ pairs: 5, stricter: 1, lenient: 1 })
    expect(found.get('b')).toEqual({ pairs: 5, stricter: 0, lenient: 2 })
    expect(found.get('c')).toEqual({ pairs: 2, stricter: 2, lenient: 0 })
    expect(whoWasStricter([])).toEqual(new Map())
  })
})

describe('the sign test', () => {
  // By hand: of 9, at most one on a side, (1 + 9)/512, twice.
  it.each([
    [8, 1, 20 / 512],
    [1, 8, 20 / 512],
    [5, 0, 2 / 32],
    [4, 4, 1],
    [0, 0, 1],
  ])('of %i to %i is %d', (more, fewer, p) => {
    expect(signTest(more, fewer)).toBeCloseTo(p, 12)
  })
})
