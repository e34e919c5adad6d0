import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'

const FIRST = Temporal.PlainDate.from('1900-01-01')
const DAYS = FIRST.until('2200-12-31').days

/** Any calendar date that the contract lets in, 1900 to 2200. */
export const arbitraryDate: fc.Arbitrary<string> = fc
  .integer({ min: 0, max: DAYS })
  .map((days) => FIRST.add({ days }).toString())
