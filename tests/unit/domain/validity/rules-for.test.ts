import { describe, expect, it } from 'vitest'
import { rulesFor, VALIDITY_RULES } from '../../../../server/domain/validity/rules.ts'

const TEST = { purpose: 'test', outcomeOnly: false, isVoid: false, isSecond: false } as const

// The rows of the validity rule in the order of its table, with whether the office may waive them.
const TABLE = [
  ['grader-is-candidate', false],
  ['sponsor-is-candidate', false],
  ['grader-coached', false],
  ['grader-not-qualified', true],
  ['no-sponsor', true],
  ['not-the-sponsor', true],
  ['sponsor-not-certified', true],
  ['conditions', true],
  ['too-early', true],
  ['review-missing', true],
  ['out-of-sequence', true],
  ['standard-not-in-force', true],
  ['arm-not-allowed', true],
  ['void-after-failure', true],
  ['clock-skew', true],
] as const

describe('rulesFor', () => {
  it('has every row in the order of the table', () => {
    expect(Object.entries(VALIDITY_RULES)).toEqual(TABLE)
    expect(rulesFor(TEST)).toEqual(TABLE.map(([rule]) => rule))
  })

  it.each([
    ['practice', { purpose: 'practice' }, []],
    ['void practice', { purpose: 'practice', isVoid: true }, []],
    ['outcome-only', { outcomeOnly: true }, ['grader-is-candidate', 'sponsor-is-candidate']],
    ['a second grader', { isSecond: true }, ['grader-is-candidate', 'grader-coached', 'grader-not-qualified']],
    [
      'void',
      { isVoid: true },
      ['grader-is-candidate', 'sponsor-is-candidate', 'grader-coached', 'void-after-failure', 'clock-skew'],
    ],
    // Two at once: to what both are held to.
    ['void, by a second grader', { isVoid: true, isSecond: true }, ['grader-is-candidate', 'grader-coached']],
    ['outcome-only, by a second grader', { outcomeOnly: true, isSecond: true }, ['grader-is-candidate']],
  ] as const)('holds a sheet that is %s to its rows', (_kind, kind, rules) => {
    expect(rulesFor({ ...TEST, ...kind })).toEqual(rules)
  })
})
