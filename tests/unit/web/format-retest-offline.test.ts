import { describe, expect, it } from 'vitest'
import { formatRetestOffline } from '../../../web/features/sheets/grade/format-retest-offline.ts'

const terms = (effectiveFrom: string, waitDays: number, dueDays: number) => ({ effectiveFrom, waitDays, dueDays })
const sword = {
  standard: 'standing',
  arms: ['sword'],
  terms: [terms('2025-01-01', 7, 30), terms('2026-06-01', 5, 20)],
}
const test = {
  standard: 'standing',
  arm: 'sword',
  day: '2026-05-31',
  result: { outcome: 'NO-GO' as const },
  state: null,
}
const days = (more: object, all = [sword]) => formatRetestOffline({ ...test, ...more }, all, '2026-05-31').slice(0, -1)

describe('the retest as a phone without a network says it', () => {
  it('follows the terms of the day of the test', () => {
    expect(days({})).toEqual(['If the test counts: from Sunday 7 June, at the latest on Tuesday 30 June.'])
    expect(days({ day: '2026-06-01' })).toEqual([
      'If the test counts: from Saturday 6 June, at the latest on Sunday 21 June.',
    ])
  })

  it('asks only certifications that take the arm and the standard, and says the same days once', () => {
    expect(days({ arm: 'saber' })).toEqual([])
    expect(days({ standard: 'marching' })).toEqual([])
    expect(days({ arm: null }, [{ ...sword, arms: [] }])).toHaveLength(1)
    expect(days({}, [sword, { ...sword }])).toHaveLength(1)
    expect(days({}, [sword, { ...sword, terms: [terms('2025-01-01', 1, 10)] }])).toHaveLength(2)
  })

  it('promises nothing where there is none', () => {
    for (const outcome of ['GO', 'VOID'] as const) {
      const said = formatRetestOffline({ ...test, result: { outcome } }, [sword], '2026-05-31')
      expect(said).toHaveLength(1)
      expect(said[0]).not.toContain('June')
    }
    expect(formatRetestOffline({ ...test, state: 'rejected' }, [sword], '2026-05-31').join()).not.toContain('June')
  })
})
