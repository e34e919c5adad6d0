import { z } from 'zod'
import { Code, PlainDate, Uuid } from '../common.ts'
import { Interval } from './interval.ts'
import { FindingsFilters } from './query.ts'

const { attempts: _, ...filters } = FindingsFilters

export const TimeToCertifyQuery = z.strictObject({
  ...filters,
  certification: Code.optional(),
  start: z
    .enum(['first-attempt', 'first-sponsor'])
    .default('first-sponsor')
    .describe('Days run from the first day with a sponsor, or from the first attempt.'),
})

const CurvePoint = z
  .object({
    day: z.int(),
    atRisk: z.int(),
    certified: z.int(),
    left: z.int(),
    censored: z.int().describe('Last seen in training, on this day or since the point before.'),
    uncertified: z
      .number()
      .describe('Share not certified by the end of this day, still in training or left (Aalen and Johansen).'),
    leftShare: z.number().describe('Share that has left uncertified by then.'),
    interval: Interval.nullable().describe('Of `uncertified`.'),
  })
  .meta({ id: 'CurvePoint' })

const CertifyCurve = z
  .object({
    soldiers: z.int(),
    certified: z.int(),
    waiting: z.int().describe('Still uncertified: seen until today.'),
    left: z.int().describe('Left the strength or training uncertified, which ends the waiting as certification does.'),
    median: z.number().nullable().describe('Days until half are certified; null: not reached.'),
    medianInterval: z.object({ low: z.number().nullable(), high: z.number().nullable() }).describe('Null: open.'),
    points: z
      .array(CurvePoint)
      .describe('Where somebody was certified or left, and the end; empty for companies after the twelfth.'),
    tests: z
      .object({
        median: z.number().nullable().describe('Tests by which half are certified; null: not reached.'),
        counts: z.array(
          z.object({
            tests: z.int(),
            certified: z.int(),
            left: z.int(),
            waiting: z.int(),
            certifiedShare: z.number().describe('Share certified with so many tests or fewer (Aalen and Johansen).'),
          }),
        ),
      })
      .describe('Tests of the required standards it took, from the first ever to the certification, or so far.'),
  })
  .meta({ id: 'CertifyCurve' })

const Comparison = z
  .object({
    verdict: z.enum(['differ', 'not-shown', 'not-compared']),
    reason: z.enum(['no-events', 'fewer-than-two-groups', 'too-many-groups']).nullable(),
    chiSquare: z.number().nullable(),
    degreesOfFreedom: z.int().nullable(),
    p: z.number().nullable(),
    expected: z.array(
      z.object({ unitId: Uuid.nullable(), observed: z.int(), expected: z.number(), compared: z.boolean() }),
    ),
  })
  .meta({ id: 'LogRankComparison' })

const CertifyTimes = z
  .object({
    certification: Code,
    all: CertifyCurve,
    companies: z.array(
      CertifyCurve.safeExtend({
        unitId: Uuid.nullable().describe('Null: in no company that day.'),
        name: z.string().nullable(),
      }),
    ),
    comparison: Comparison.describe(
      'Log-rank test between the companies, of those still in training; not of more than 40.',
    ),
    leftOut: z.object({
      certifiedBefore: z.int().describe('Held the certification already: a renewal, not a first certification.'),
    }),
  })
  .meta({ id: 'CertifyTimes' })

/** How long it takes to be certified the first time. */
export const TimeToCertify = z
  .object({
    start: z.enum(['first-attempt', 'first-sponsor']),
    asOf: PlainDate,
    level: z.number(),
    transformation: z.enum(['log', 'log-log']).describe('On which the intervals of curve and median are symmetric.'),
    items: z.array(CertifyTimes),
  })
  .meta({ id: 'TimeToCertify' })

export type TimeToCertifyQuery = z.infer<typeof TimeToCertifyQuery>
export type TimeToCertify = z.infer<typeof TimeToCertify>
