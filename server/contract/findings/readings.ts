import { z } from 'zod'
import { Code } from '../common.ts'
import { Basis } from './basis.ts'
import { DefinedIn } from './definition.ts'
import { Rate } from './rate.ts'

const Side = z.enum(['low', 'within', 'high'])

const ReadingBar = z
  .object({
    side: Side,
    from: z.string().nullable().describe('Decimal; null: open.'),
    to: z.string().nullable(),
    count: z.int(),
  })
  .meta({ id: 'ReadingBar' })

const GaugeFinding = z
  .object({
    standard: Code,
    measure: Code,
    gauge: Code,
    ...DefinedIn,
    title: z.string(),
    unit: z.string(),
    min: z.string().nullable(),
    max: z.string().nullable(),
    target: z.string().nullable(),
    readings: z.int(),
    overridden: z.int().describe('Of the readings outside the band: the grader let the trial stand, with a reason.'),
    low: Rate,
    within: Rate,
    high: Rate,
    bars: z.array(ReadingBar).describe('From low to high without gaps; none mixes both sides of a limit.'),
  })
  .meta({ id: 'GaugeFinding' })

/** Readings of every gauge of every measure against its band. Several readings of one soldier are not independent. */
export const ReadingFindings = z.object({ items: z.array(GaugeFinding), basis: Basis }).meta({ id: 'ReadingFindings' })

export type ReadingFindings = z.infer<typeof ReadingFindings>
