import { z } from 'zod'
import { Code } from '../common.ts'
import { Basis } from './basis.ts'
import { Interval } from './interval.ts'
import { FindingsFilters } from './query.ts'
import { Rate } from './rate.ts'

const { attempts, ...filters } = FindingsFilters

/** First tests unless told otherwise: one sheet a candidate, all alike in what had been practised before. */
export const QualityQuery = z.strictObject({ ...filters, attempts: attempts.unwrap().default('first') })

/** A coefficient with its interval, or why there is none. */
const Coefficient = z
  .object({
    value: z.number().nullable(),
    interval: Interval.nullable(),
    reason: z
      .enum(['no-data', 'one-sheet', 'one-item', 'no-variation', 'item-never-varies', 'rest-never-varies'])
      .nullable()
      .describe('Why there is no value.'),
  })
  .meta({ id: 'Coefficient' })

const MeasureQuality = z
  .object({
    measure: Code,
    difficulty: Rate.describe('GO of all tests carried through: high for an easy measure.'),
    itemRest: Coefficient.describe('Correlation with the score on all other measures: tells good from bad when high.'),
    ifDeleted: Coefficient.describe('KR-20 of the test without this measure.'),
    change: z
      .object({ value: z.number(), interval: Interval })
      .nullable()
      .describe('KR-20 without it less KR-20 with it, by the jackknife; null: not defined.'),
    remarks: z.array(z.enum(['everybody-alike', 'works-against-the-rest', 'reliability-rises-without'])),
  })
  .meta({ id: 'MeasureQuality' })

const StandardQuality = z
  .object({
    standard: Code,
    versions: z
      .array(z.int())
      .describe('Versions whose minor measures are all defined alike, so that they are one test.'),
    current: z.boolean().describe('False: a later version in this answer differs and has an analysis of its own.'),
    sheets: z.int().describe('Tests on which every minor was decided; only these are analysed.'),
    leftOut: z.object({ undecided: z.int(), recorded: z.int() }),
    reliability: Coefficient.describe('KR-20 with Feldt’s interval.'),
    measures: z.array(MeasureQuality),
  })
  .meta({ id: 'StandardQuality' })

/** How well a standard works as a test. Stopped tests are left out, so it holds for tests that were carried through. */
export const QualityFindings = z
  .object({ items: z.array(StandardQuality), basis: Basis })
  .meta({ id: 'QualityFindings' })

export type Coefficient = z.infer<typeof Coefficient>
export type QualityQuery = z.infer<typeof QualityQuery>
export type QualityFindings = z.infer<typeof QualityFindings>
