import { z } from 'zod'
import { Code } from '../common.ts'
import { Basis } from './basis.ts'
import { DefinedIn } from './definition.ts'
import { FindingsFilters } from './query.ts'

export const TrendQuery = z.strictObject({
  ...FindingsFilters,
  measure: Code.optional().describe('Only this measure, in whichever standards have it.'),
})

const TrendPoint = z
  .object({
    month: z.string().describe('YYYY-MM'),
    count: z.int().describe('NO-GO'),
    n: z.int(),
    rate: z.number().nullable().describe('Null: nobody tested.'),
    low: z.number().nullable().describe('Three-sigma limits at this n.'),
    high: z.number().nullable(),
    beyond: z.enum(['above', 'below']).nullable().describe('Outside the drawn limits; unusual only with a signal.'),
    chance: z.number().nullable().describe('Probability, at the centre, of a rate as far out on its side or farther.'),
    signals: z.array(z.enum(['beyond-limit', 'run-of-eight'])),
  })
  .meta({ id: 'TrendPoint' })

const TrendSeries = z
  .object({
    standard: Code,
    measure: Code.nullable().describe('Null: the test as a whole.'),
    major: z.boolean(),
    ...DefinedIn,
    count: z.int(),
    n: z.int(),
    centre: z.number().describe('NO-GOs of all tested over the whole time of the chart.'),
    points: z.array(TrendPoint),
  })
  .meta({ id: 'TrendSeries' })

/** NO-GO rates month by month, with limits that say when a month is really unusual. */
export const TrendFindings = z
  .object({
    months: z.array(z.string()).describe('From the first month with a test to the last one asked about, YYYY-MM.'),
    series: z.array(TrendSeries),
    judgedMonths: z.int().describe('Points with data in all series: so many chances of a false signal.'),
    basis: Basis,
  })
  .meta({ id: 'TrendFindings' })

export type TrendQuery = z.infer<typeof TrendQuery>
export type TrendFindings = z.infer<typeof TrendFindings>
