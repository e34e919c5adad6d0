import { describe, expect, it } from 'vitest'
import { armsForGrade } from '../../../web/domain/soldiers/arms-for-grade.ts'

describe('arms for a grade', () => {
  const certification = (code: string, arms: string[], grades: string[] | null) => ({
    id: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11',
    code,
    title: code,
    standards: ['x'],
    arms,
    sequence: 'any' as const,
    windowDays: 90,
    validityMonths: 12,
    waitDays: 7,
    dueDays: 30,
    reviewAfter: 3,
    approval: 'none' as const,
    extensionDays: 0,
    requiredOf: grades && { grades, units: null },
    effectiveFrom: '2023-01-01',
  })
  const ALL = [
    certification('saber', ['saber'], ['2LT', '1LT']),
    certification('sword', ['sword'], ['SGT', 'SFC']),
    certification('rifle', ['rifle'], null),
  ]

  it('changes the sword for the saber when an NCO becomes an officer, and nothing within a rank', () => {
    expect(armsForGrade(ALL, ['sword', 'rifle'], 'SFC', '2LT')).toEqual(['rifle', 'saber'])
    expect(armsForGrade(ALL, ['sword', 'rifle'], 'SGT', 'SFC')).toEqual(['sword', 'rifle'])
    expect(armsForGrade(ALL, ['rifle'], 'CPL', 'SGT')).toEqual(['rifle', 'sword'])
    expect(armsForGrade(ALL, ['rifle'], 'CPL', 'nobody')).toEqual(['rifle'])
  })
})
