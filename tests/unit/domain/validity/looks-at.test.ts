import { describe, expect, it } from 'vitest'
import { isUntouched, type LookedAt } from '../../../../server/domain/validity/looks-at.ts'
import { VALIDITY_RULES } from '../../../../server/domain/validity/rules.ts'

const SHEET: LookedAt = {
  sponsorId: 'sponsor',
  graderId: 'grader',
  arm: 'sword',
  day: '2026-03-02',
  finishedAt: Date.parse('2026-03-02T09:00:00Z'),
  isVoid: false,
  voidAfterFailure: false,
  conditionsMet: true,
  version: 1,
}
const touched = (change: Partial<LookedAt>) =>
  Object.keys(VALIDITY_RULES).filter((rule) => !isUntouched(rule, SHEET, { ...SHEET, ...change }))

describe('what a condition of a valid test looks at', () => {
  it.each<[string, Partial<LookedAt>, string[]]>([
    ['nothing', {}, []],
    ['the grader', { graderId: 'other' }, ['grader-is-candidate', 'grader-coached', 'grader-not-qualified']],
    [
      'the sponsor',
      { sponsorId: null },
      ['sponsor-is-candidate', 'grader-coached', 'no-sponsor', 'not-the-sponsor', 'sponsor-not-certified'],
    ],
    ['the arm', { arm: 'saber' }, ['arm-not-allowed']],
    ['the version', { version: 2 }, ['standard-not-in-force', 'arm-not-allowed']],
    ['the conditions', { conditionsMet: false }, ['conditions']],
  ])('an amendment of %s', (_what, change, rules) => expect(touched(change)).toEqual(rules))

  it('leaves what is not known touched', () => expect(isUntouched('nonsense', SHEET, SHEET)).toBe(false))
})
