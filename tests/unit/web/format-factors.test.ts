import { describe, expect, it } from 'vitest'
import { formatFactors } from '../../../web/features/accounts/factors/format-factors.ts'
import { formatRules, formatWithout } from '../../../web/features/accounts/format-factor-rules.ts'

const TODAY = '2026-06-15'
const NONE = { app: null, passkeys: [], recoveryCodes: 0, requiredFrom: null, passkeysWork: true }
const APP = { createdAt: '2026-06-01T10:00:00Z', lastUsedAt: null }

describe('one’s second factors', () => {
  it('say whether one needs one, and from when', () => {
    expect(formatFactors(NONE, TODAY)).toMatch(/^You have none\. With one/)
    expect(formatFactors({ ...NONE, requiredFrom: TODAY }, TODAY)).toMatch(/^You have none, and your roles need one\./)
    expect(formatFactors({ ...NONE, requiredFrom: '2026-07-01' }, TODAY)).toMatch(/need one from .*1 Jul.* on\./)
  })

  it('say how many recovery codes are left, and when they are few', () => {
    expect(formatFactors({ ...NONE, app: APP, recoveryCodes: 10 }, TODAY)).toMatch(/10 recovery codes left\.$/)
    expect(formatFactors({ ...NONE, app: APP, recoveryCodes: 1 }, TODAY)).toMatch(/Only 1 recovery code left: make new/)
  })
})

describe('who needs one', () => {
  const rules = (...some: ['office' | 'grader', string][]) => ({
    rules: some.map(([role, fromDay]) => ({ role, fromDay })),
    roles: [],
  })

  it('is said by role, now and later', () => {
    expect(formatRules(rules(), TODAY)).toBe('No role needs a second factor.')
    expect(formatRules(rules(['office', TODAY]), TODAY)).toBe('A second factor is needed now by training office.')
    expect(formatRules(rules(['office', TODAY], ['grader', '2026-07-01']), TODAY)).toBe(
      'A second factor is needed now by training office; later by grader.',
    )
  })

  it.each([
    [0, 0, 'no accounts'],
    [1, 0, '1 account, with one'],
    [1, 1, '1 account, without one'],
    [12, 9, '12 accounts, 9 without one'],
    [3, 3, '3 accounts, none with one'],
    [3, 0, '3 accounts, all with one'],
  ])('%i accounts, %i of them without: %s', (accounts, without, said) => {
    expect(formatWithout({ rules: [], roles: [{ role: 'office', accounts, without }] }, 'office')).toBe(said)
  })
})
