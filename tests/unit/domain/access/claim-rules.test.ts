import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Role } from '../../../../server/domain/access/actor.ts'
import { applyClaimRules, type ClaimRule, textClaim } from '../../../../server/domain/access/claim-rules.ts'

const CLAIMS = ['a', 'b', 'c.d'] as const
const VALUES = ['x', 'y', '7', 'true'] as const
const ROLES: readonly Role[] = ['office', 'administrator', 'sponsor', 'grader', 'soldier']

const ofAUnit = fc.record({
  claim: fc.constantFrom(...CLAIMS),
  test: fc.constantFrom('is' as const, 'contains' as const),
  value: fc.constantFrom(...VALUES),
  role: fc.constantFrom<Role>('leader', 'commander'),
  unitId: fc.constantFrom('U1', 'U2'),
})
const ofNone = ofAUnit.chain((rule) =>
  fc.constantFrom(...ROLES).map((role): ClaimRule => ({ ...rule, role, unitId: null })),
)
const rules = fc.array(fc.oneof(ofAUnit as fc.Arbitrary<ClaimRule>, ofNone), { maxLength: 8 })
const value = fc.constantFrom<unknown>('x', 'y', 7, true, null, {}, ['x'], ['x', 7], [], [['x']], ['y', true])
const claims = fc.record({ a: value, b: value, c: fc.oneof(value, fc.record({ d: value })) }, { requiredKeys: [] })
const settings = { seed: 20261130, numRuns: 500 }
const check = (property: (rules: ClaimRule[], claims: Record<string, unknown>, admin: boolean) => void) =>
  fc.assert(fc.property(rules, claims, fc.boolean(), property), settings)

/** What a reader of one rule would say, without the code of the walk. */
function reads({ claim, test, value: wanted }: ClaimRule, given: Record<string, unknown>): boolean {
  const [first, second] = claim.split('.') as [string, string?]
  const outer = given[first]
  const found =
    second === undefined
      ? outer
      : typeof outer === 'object' && outer !== null && !Array.isArray(outer)
        ? (outer as Record<string, unknown>)[second]
        : undefined
  const same = (each: unknown) => ['string', 'number', 'boolean'].includes(typeof each) && `${each}` === wanted
  return test === 'is' ? same(found) : Array.isArray(found) && found.some(same)
}

describe('rules on claims', () => {
  it('give a role exactly where a rule that fits does, once', () => {
    check((given, on, admin) => {
      const { roles, outcomes } = applyClaimRules(given, on, admin)
      expect(outcomes).toHaveLength(given.length)
      const fromOutcomes = given.filter((_, at) => outcomes[at] === 'given').map(({ role }) => role)
      expect(roles).toEqual([...new Set(fromOutcomes)])
      for (const [at, outcome] of outcomes.entries()) expect(outcome === 'does-not-fit').toBe(!reads(given[at]!, on))
    })
  })

  it('make no administrator unless that is allowed', () => {
    check((given, on, admin) => {
      const { roles, outcomes } = applyClaimRules(given, on, admin)
      expect(roles.includes('administrator') && !admin).toBe(false)
      expect(outcomes.includes('no-administrators') && admin).toBe(false)
    })
  })

  it('let nobody lead a unit that no rule gave them with that role, nor two', () => {
    check((given, on, admin) => {
      const { roles, unitId } = applyClaimRules(given, on, admin)
      const leads = roles.filter((role) => role === 'leader' || role === 'commander')
      expect(unitId !== null).toBe(leads.length > 0)
      for (const role of leads) {
        expect(given.some((rule) => rule.role === role && rule.unitId === unitId && reads(rule, on))).toBe(true)
      }
    })
  })

  it('are not undone by a rule further down', () => {
    check((given, on, admin) => {
      for (let length = 0; length < given.length; length += 1) {
        const fewer = applyClaimRules(given.slice(0, length), on, admin)
        const all = applyClaimRules(given, on, admin)
        expect(all.outcomes.slice(0, length)).toEqual(fewer.outcomes)
        expect(all.roles.slice(0, fewer.roles.length)).toEqual(fewer.roles)
        if (fewer.unitId !== null) expect(all.unitId).toBe(fewer.unitId)
      }
    })
  })

  it('give the same whatever their order, where they are about one unit', () => {
    check((given, on, admin) => {
      const one = given.map((rule) => (rule.unitId === null ? rule : { ...rule, unitId: 'U1' }))
      const forth = applyClaimRules(one, on, admin)
      const back = applyClaimRules([...one].reverse(), on, admin)
      expect([...back.roles].sort()).toEqual([...forth.roles].sort())
      expect(back.unitId).toBe(forth.unitId)
    })
  })

  const rule = (more: Partial<ClaimRule>): ClaimRule => ({
    claim: 'groups',
    test: 'contains',
    value: 'admin',
    role: 'office',
    unitId: null,
    ...more,
  })
  const fits = (more: Partial<ClaimRule>, on: Record<string, unknown>) =>
    applyClaimRules([rule(more)], on, false).outcomes[0] === 'given'

  it.each<[Partial<ClaimRule>, Record<string, unknown>, boolean]>([
    [{}, { groups: ['admin'] }, true],
    [{}, { groups: 'admin' }, false],
    [{}, { groups: ['not-admin', 'Admin', ' admin'] }, false],
    [{}, { groups: 'x admin y' }, false],
    [{ test: 'is' }, { groups: 'admin' }, true],
    [{ test: 'is' }, { groups: ['admin'] }, false],
    [{ test: 'is', value: '7' }, { groups: 7 }, true],
    [{ test: 'is', value: '[object Object]' }, { groups: {} }, false],
    [{ claim: 'realm.groups' }, { realm: { groups: ['admin'] } }, true],
    [{ claim: 'realm.groups' }, { 'realm.groups': ['admin'] }, true],
    [{ claim: 'https://example.org/groups' }, { 'https://example.org/groups': ['admin'] }, true],
    [{ claim: 'groups.0', test: 'is' }, { groups: ['admin'] }, false],
    [{ claim: 'constructor.name', test: 'is', value: 'Object' }, {}, false],
    [{ claim: '__proto__', test: 'is', value: 'x' }, {}, false],
  ])('%j on %j: %s', (more, on, expected) => {
    expect(fits(more, on)).toBe(expected)
  })
})

it.each<[unknown, string | null]>([
  ['1007', '1007'],
  [1007, '1007'],
  [' ', null],
  [null, null],
  [['1007'], null],
  [{}, null],
])('the text of a claim: %j', (claim, text) => {
  expect(textClaim({ number: claim }, 'number')).toBe(text)
})
