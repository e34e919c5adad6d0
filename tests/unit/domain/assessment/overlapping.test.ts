import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { overlappingSheets } from '../../../../server/domain/assessment/overlapping.ts'

const timed = (id: string, startedAt: number, finishedAt: number, secondOf: string | null = null) => ({
  id,
  secondOf,
  startedAt,
  finishedAt,
})

const overlapping = (...sheets: ReturnType<typeof timed>[]) => [...overlappingSheets(sheets)].sort()

describe('overlappingSheets', () => {
  it('finds sheets that run at the same time', () => {
    expect(overlapping(timed('a', 0, 10), timed('b', 9, 20))).toEqual(['a', 'b'])
    expect(overlapping(timed('a', 0, 10), timed('b', 2, 3), timed('c', 10, 11))).toEqual(['a', 'b'])
    expect(overlapping(timed('a', 5, 5), timed('b', 0, 10))).toEqual(['a', 'b'])
  })

  it('lets sheets touch', () => {
    expect(overlapping(timed('a', 0, 10), timed('b', 10, 20))).toEqual([])
    expect(overlapping(timed('a', 10, 20), timed('b', 10, 10), timed('c', 20, 20))).toEqual([])
  })

  it('lets several graders mark the same attempt, but no other', () => {
    const attempt = [timed('a', 0, 10), timed('b', 0, 10, 'a'), timed('c', 1, 11, 'a')]
    expect(overlapping(...attempt)).toEqual([])
    expect(overlapping(...attempt, timed('d', 10, 12))).toEqual(['c', 'd'])
    expect(overlapping(timed('b', 0, 10, 'a'), timed('d', 5, 12, 'e'))).toEqual(['b', 'd'])
  })

  it('finds what looking at every pair finds, in any order', () => {
    const sheet = fc.record({
      startedAt: fc.integer({ min: 0, max: 40 }),
      minutes: fc.integer({ min: 0, max: 12 }),
      secondOf: fc.constantFrom(null, null, 's0', 's1'),
    })
    const sheets = fc
      .array(sheet, { maxLength: 8 })
      .map((list) =>
        list.map((one, index) => timed(`s${index}`, one.startedAt, one.startedAt + one.minutes, one.secondOf)),
      )
      .chain((list) => fc.shuffledSubarray(list, { minLength: list.length }))
    fc.assert(
      fc.property(sheets, (list) => {
        const expected = list.filter((a) =>
          list.some(
            (b) =>
              a !== b &&
              (a.secondOf ?? a.id) !== (b.secondOf ?? b.id) &&
              Math.max(a.startedAt, b.startedAt) < Math.min(a.finishedAt, b.finishedAt) + instant(a, b),
          ),
        )
        expect(overlapping(...list)).toEqual(expected.map(({ id }) => id).sort())
      }),
      { numRuns: 500 },
    )
  })
})

/** A sheet without length overlaps what it lies strictly inside of. */
function instant(a: { startedAt: number; finishedAt: number }, b: { startedAt: number; finishedAt: number }): number {
  const inside = (point: typeof a, span: typeof a) =>
    point.startedAt === point.finishedAt && span.startedAt < point.startedAt && point.startedAt < span.finishedAt
  return inside(a, b) || inside(b, a) ? 1 : 0
}
