import { describe, expect, it } from 'vitest'
import { type CoachedPattern, sponsorMeasures } from '../../../../server/domain/tallies/sponsor-measures.ts'
import { DEFINITION } from './given.ts'

const of = { standard: 'standing', version: 1, definition: DEFINITION }
const codes = [...DEFINITION.majors, ...DEFINITION.minors].map(({ code }) => code)
const [last, beforeLast] = [codes.at(-1)!, codes.at(-2)!]

/** Sheets GO on all but the measures named. */
const pattern = (isOwn: boolean, sheets: number, ...noGo: string[]): CoachedPattern => ({
  of,
  kind: 'first',
  isOwn,
  sheets,
  marks: codes.map((code) => (noGo.includes(code) ? 'N' : 'G')).join(''),
})

describe('what a sponsor’s candidates fail', () => {
  it('stands out where they are worse at it than at the rest', () => {
    const items = sponsorMeasures([
      pattern(true, 20, last),
      pattern(true, 20),
      pattern(false, 20, last),
      pattern(false, 180),
    ])
    const [first, ...rest] = items
    // By hand: 40 of 240 were NO-GO, so 40 · 40/240 of theirs were to be expected.
    expect(first).toMatchObject({ measure: last, own: { count: 20, n: 40 }, others: { count: 20, n: 200 } })
    expect(first!.expected).toBeCloseTo(40 / 6, 9)
    expect(first!.differs).toBe('more')
    expect(rest.every(({ differs }) => differs === 'few' || differs === 'no')).toBe(true)
  })

  it('does not where such candidates fail it with everybody', () => {
    // Who fails one fails the other: of the same score on the rest, theirs do as others' do.
    const items = sponsorMeasures([
      pattern(true, 30, last, beforeLast),
      pattern(true, 10),
      pattern(false, 30, last, beforeLast),
      pattern(false, 170),
    ])
    expect(items.filter(({ differs }) => differs === 'more' || differs === 'fewer')).toEqual([])
  })

  it('tells few apart from none, and leaves out what was never tested', () => {
    expect(sponsorMeasures([pattern(true, 3, last), pattern(false, 50)])[0]).toMatchObject({ differs: 'few' })
    expect(sponsorMeasures([pattern(false, 50)])).toEqual([])
    expect(sponsorMeasures([])).toEqual([])
  })
})
