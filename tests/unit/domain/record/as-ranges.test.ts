import fc from 'fast-check'
import { expect, it } from 'vitest'
import { asRanges } from '../../../../server/domain/record/as-ranges.ts'

it('names a number as often as it was given, in the fewest pairs', () => {
  expect(asRanges([])).toEqual([])
  expect(asRanges([1, 2, 3, 7])).toEqual([
    [1, 3],
    [7, 7],
  ])
  const ascending = fc.uniqueArray(fc.integer({ min: 1, max: 60 })).map((numbers) => numbers.sort((a, b) => a - b))
  fc.assert(
    fc.property(ascending, (numbers) => {
      const ranges = asRanges(numbers)
      const named = ranges.flatMap(([first, last]) =>
        Array.from({ length: last - first + 1 }, (_, step) => first + step),
      )
      expect(named).toEqual(numbers)
      for (const [place, [first]] of ranges.entries())
        if (place > 0) expect(first).toBeGreaterThan(ranges[place - 1]![1] + 1)
    }),
  )
})
