import { z } from 'zod'
import { Interval } from './interval.ts'

/** `count` of `n` as a rate from 0 to 1 with its interval. Without data (n is 0) there is neither. */
export const Rate = z
  .object({
    count: z.int(),
    n: z.int(),
    rate: z.number().nullable(),
    interval: Interval.nullable().describe('Wilson’s interval.'),
    exact: Interval.nullable().describe('The interval of Clopper and Pearson, never too narrow.'),
    few: z.boolean().describe('Of fewer than 5: says next to nothing, and must be labelled so.'),
  })
  .meta({ id: 'Rate' })

export type Rate = z.infer<typeof Rate>
