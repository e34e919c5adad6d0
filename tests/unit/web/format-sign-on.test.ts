import { describe, expect, it } from 'vitest'
import { SIGN_ON_PROBLEMS } from '../../../server/contract/sign-on/problems.ts'
import type { ClaimRule, Trial } from '../../../server/contract/sign-on/providers.ts'
import { formatSignOnProblem } from '../../../web/domain/sign-on/format-sign-on-problem.ts'
import { formatOutcome, formatTrial } from '../../../web/features/sign-on/format-trial.ts'

describe('why somebody came back without what they went for', () => {
  it.each(SIGN_ON_PROBLEMS)('%s is said, with what to do', (problem) => {
    const said = formatSignOnProblem(problem, 'Guard directory')
    expect(said).toMatch(/^[A-Z].*\.$/)
    expect(said).not.toMatch(/undefined|OAuth|token/)
  })

  it.each([null, '', 'nonsense', 'constructor', '__proto__'])('is nothing where the address says %j', (code) => {
    expect(formatSignOnProblem(code, undefined)).toBeNull()
  })
})

describe('what would come of a first sign-in', () => {
  const trial: Trial = {
    subject: 'x',
    name: 'rafe',
    nameTaken: false,
    soldierNumber: null,
    soldier: null,
    soldierTaken: false,
    roles: ['office', 'leader'],
    unitId: 'u',
    outcomes: [],
  }
  const unitName = (id: string | null) => (id ? '2nd Platoon' : null)

  it.each<[string, Partial<Trial>, string[]]>([
    ['all is well', {}, ['An account rafe would be made, with: Training office, leader, over 2nd Platoon.']],
    ['no rule fits', { roles: [], unitId: null }, ['No account would be made: no rule gives a role.']],
    [
      'the soldier has an account',
      { soldierNumber: '1007', soldier: '1007 Amadi, Rafe', soldierTaken: true },
      [
        'No account would be made. The rules would give: Training office, leader, over 2nd Platoon.',
        '1007 Amadi, Rafe has an account already; they link that one.',
      ],
    ],
    [
      'nobody has the number',
      { soldierNumber: '9' },
      [expect.stringMatching(/^An account/), 'Nobody on the roster has the number 9.'],
    ],
    [
      'the name is missing',
      { name: null },
      [expect.stringMatching(/^No account/), expect.stringMatching(/name is missing/)],
    ],
    [
      'the name is taken',
      { nameTaken: true },
      [expect.stringMatching(/^No account/), expect.stringMatching(/^There is an account rafe/)],
    ],
  ])('where %s', (_, more, sentences) => {
    expect(formatTrial({ ...trial, ...more }, unitName)).toEqual(sentences)
  })

  it('says of each rule why', () => {
    const rule: ClaimRule = { claim: 'groups', test: 'contains', value: 'a', role: 'leader', unitId: 'u' }
    expect(formatOutcome('given', rule, unitName)).toBe('fits, and gives leader over 2nd Platoon.')
    expect(formatOutcome('does-not-fit', rule, unitName)).toBe('does not fit: groups is no list that contains “a”.')
    for (const outcome of ['no-administrators', 'other-unit', 'no-soldier', 'no-unit'] as const) {
      expect(formatOutcome(outcome, rule, unitName)).toMatch(/^(fits, but|names a unit) .*\.$/)
    }
  })
})
