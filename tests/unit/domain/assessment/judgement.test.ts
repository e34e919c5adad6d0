import { describe, expect, it } from 'vitest'
import { judgement } from '../../../../server/domain/assessment/judgement.ts'
import type { AssessedSheet } from '../../../../server/domain/assessment/types.ts'
import { VALIDITY_RULES, type ValidityRule } from '../../../../server/domain/validity/rules.ts'
import { givenSheet } from './given.ts'

const violations = (...rules: ValidityRule[]) =>
  rules.map((rule) => ({ rule, waivable: VALIDITY_RULES[rule], detail: `${rule}.` }))

const judged = (sheet: Partial<AssessedSheet>, ...broken: ValidityRule[]) =>
  judgement(givenSheet('1', '2026-03-02', sheet), violations(...broken))

const allTolerated = (sheet: Partial<AssessedSheet>, ...broken: ValidityRule[]) => judged(sheet, ...broken).tolerated

describe('a sheet that just arrived', () => {
  it('counts when it breaks nothing, and is held otherwise', () => {
    expect(judged({})).toEqual({ state: 'counted', violations: [], tolerated: [] })
    expect(judged({}, 'conditions')).toEqual({
      state: 'held',
      violations: violations('conditions'),
      tolerated: [],
    })
  })
})

describe('a held sheet', () => {
  it('stays held as long as one broken rule is not waived', () => {
    const sheet = { state: 'held', waived: ['conditions'] } as const
    expect(judged(sheet, 'conditions', 'too-early').state).toBe('held')
    expect(judged({ state: 'held' }, 'too-early').state).toBe('held')
  })

  it('counts by itself once nothing holds it', () => {
    expect(judged({ state: 'held', violations: violations('too-early') })).toEqual({
      state: 'counted',
      violations: [],
      tolerated: [],
    })
  })

  it('counts once all that it breaks is waived, and still tells of it', () => {
    const sheet = { state: 'held', waived: ['conditions', 'too-early'] } as const
    expect(judged(sheet, 'conditions')).toEqual({
      state: 'counted',
      violations: violations('conditions'),
      tolerated: [],
    })
  })
})

describe('a counted sheet', () => {
  it('is never undone: what it breaks is tolerated, a rule that is never waived included', () => {
    expect(judged({ state: 'counted' }, 'grader-coached', 'too-early')).toEqual({
      state: 'counted',
      violations: violations('grader-coached', 'too-early'),
      tolerated: ['grader-coached', 'too-early'],
    })
  })

  it('does not need tolerance for what was waived', () => {
    expect(allTolerated({ state: 'counted', waived: ['too-early'] }, 'too-early', 'conditions')).toEqual(['conditions'])
  })

  it('no longer tells of what it has ceased to break', () => {
    expect(judged({ state: 'counted', tolerated: ['too-early'] }).violations).toEqual([])
  })
})

describe('an amended sheet', () => {
  it('keeps what was waived', () => {
    expect(judged({ state: 'new', waived: ['conditions'] }, 'conditions').state).toBe('counted')
  })

  it('keeps what was tolerated', () => {
    expect(judged({ state: 'new', tolerated: ['too-early'] }, 'too-early')).toEqual({
      state: 'counted',
      violations: violations('too-early'),
      tolerated: ['too-early'],
    })
  })

  it('is held for what is broken anew, and keeps what was tolerated for the reverse', () => {
    const held = judged({ state: 'new', tolerated: ['too-early'] }, 'too-early', 'conditions')
    expect(held).toMatchObject({ state: 'held', tolerated: ['too-early'] })
    expect(judged({ state: 'new', tolerated: held.tolerated }, 'too-early').state).toBe('counted')
  })
})

describe('a rejected sheet', () => {
  it.each([
    ['breaks nothing any more', {}, []],
    ['breaks what was waived', { waived: ['conditions'] }, ['conditions']],
    ['breaks more', {}, ['conditions', 'too-early']],
  ] as const)('stays rejected when it %s, and tells what it breaks', (_when, sheet, rules) => {
    expect(judged({ state: 'rejected', violations: violations('conditions'), ...sheet }, ...rules)).toEqual({
      state: 'rejected',
      violations: violations(...rules),
      tolerated: [],
    })
  })
})
