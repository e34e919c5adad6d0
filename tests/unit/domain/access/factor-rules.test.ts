import { expect, it } from 'vitest'
import { factorRequiredFrom, needsFactor } from '../../../../server/domain/access/factor-rules.ts'

const RULES = [
  { role: 'administrator', fromDay: '2026-06-15' },
  { role: 'office', fromDay: '2026-07-01' },
]

it('asks from the earliest day of any role on', () => {
  expect(factorRequiredFrom(['leader', 'soldier'], RULES)).toBeNull()
  expect(factorRequiredFrom(['office'], RULES)).toBe('2026-07-01')
  expect(factorRequiredFrom(['office', 'administrator'], RULES)).toBe('2026-06-15')
})

it('asks on that day, and not the day before', () => {
  expect(needsFactor(['office'], RULES, '2026-06-30')).toBe(false)
  expect(needsFactor(['office'], RULES, '2026-07-01')).toBe(true)
  expect(needsFactor(['leader'], RULES, '2026-07-01')).toBe(false)
  expect(needsFactor([], RULES, '2026-07-01')).toBe(false)
  expect(needsFactor(['administrator'], [], '2026-07-01')).toBe(false)
})
