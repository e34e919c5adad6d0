import { describe, expect, it } from 'vitest'
import { canBeMeant, formatMeaning } from '../../../web/features/standards/format-meaning.ts'

type Terms = Parameters<typeof formatMeaning>[0]

const TERMS: Terms = {
  standards: ['standing', 'marching'],
  windowDays: 90,
  validityMonths: 12,
  waitDays: 7,
  dueDays: 30,
  reviewAfter: 3,
  sequence: 'any',
}
const say = (change: Partial<Terms>, on = '2026-03-03') => formatMeaning({ ...TERMS, ...change }, on, '2026-01-01')

describe('what terms mean', () => {
  it('is said with the days that come of them', () => {
    expect(say({})).toEqual([
      'The last GO that is needed on 3 March certifies through 3 March 2027.',
      'Any other GO on 3 March counts toward it until 1 June.',
      'A NO-GO on 3 March may be retested from 10 March and is due by 2 April.',
      'After three NO-GOs in a row a review comes before the next retest.',
    ])
  })

  it('ends with the month where the month is shorter, and knows one standard, an order and no waiting', () => {
    expect(say({ validityMonths: 6 }, '2026-08-31')[0]).toMatch(/through 28 February 2027/)
    expect(say({ standards: ['standing'] })[0]).toBe('A GO on 3 March certifies through 3 March 2027.')
    expect(say({ sequence: 'in-order' })[1]).toMatch(/only once those before it are passed/)
    expect(say({ waitDays: 0 })[2]).toMatch(/retested from the same day/)
    expect(say({ reviewAfter: 1 }).at(-1)).toMatch(/After each NO-GO/)
  })

  it('says where a retest would be due before it may be taken, and nothing of numbers that cannot be meant', () => {
    expect(say({ dueDays: 5 })[2]).toMatch(/would be due by 8 March, before it may be retested/)
    expect(canBeMeant({ ...TERMS, standards: [] })).toBe(true)
    expect(canBeMeant({ ...TERMS, standards: [], validityMonths: 0 })).toBe(false)
    expect(canBeMeant({ ...TERMS, standards: [], waitDays: Number.NaN })).toBe(false)
  })
})
