import { z } from 'zod'
import { Interval } from './interval.ts'
import { Rate } from './rate.ts'

const WHY_NOT_ESTIMATED = [
  'no-data',
  'one-group',
  'all-passed',
  'none-passed',
  'single-attempts',
  'all-or-nothing',
] as const

export const WhyNotEstimated = z.enum(WHY_NOT_ESTIMATED)

/** A pass rate drawn toward that of all sponsors, the more the fewer the attempts. */
const ShrunkRate = z
  .object({
    kind: z
      .enum(['shrunk', 'pooled', 'not-estimated'])
      .describe(
        'pooled: sponsors differ no more than chance makes them, so the common rate is the best estimate of each.',
      ),
    rate: z.number().nullable(),
    interval: Interval.nullable(),
    ownWeight: z.number().nullable().describe('How far the sponsor’s own attempts count, 0 to 1.'),
    reason: WhyNotEstimated.nullable(),
  })
  .meta({ id: 'ShrunkRate' })

const FunnelVerdict = z
  .object({
    target: z.number(),
    limits95: Interval,
    limits998: Interval,
    side: z.enum(['above', 'below', 'on']),
    chance: z.number().describe('Probability, at the target, of a count as far out on its side or farther.'),
    verdict: z
      .enum(['within', 'at-limit', 'differs'])
      .describe('at-limit: past the drawn line, but chance alone does so more often than 2.5 %. Only differs differs.'),
    differsAt: z.union([z.literal(0.95), z.literal(0.998)]).nullable(),
  })
  .meta({ id: 'FunnelVerdict' })

/** Attempts and passes credited to somebody, judged against all who have some. */
export const JudgedCredit = z
  .object({
    rate: Rate,
    shrunk: ShrunkRate,
    funnel: FunnelVerdict.nullable().describe('Null without attempts, or where everybody passed or nobody did.'),
  })
  .meta({ id: 'JudgedCredit' })

/** Observed passes against those the unit’s own rates would give for the same mix of arm, standard and attempt number. */
export const AgainstExpected = z
  .object({
    attempts: z.int().describe('Attempts with others of their kind to compare with.'),
    observed: z.int(),
    expected: z.number(),
    ratio: z.number().nullable(),
    usual: Interval.describe('Passes that would not differ at 95 %.'),
    side: z.enum(['above', 'below', 'on']),
    chance: z.number(),
    verdict: z.enum(['within', 'differs']),
    differsAt: z.union([z.literal(0.95), z.literal(0.998)]).nullable(),
    few: z.boolean(),
  })
  .meta({ id: 'AgainstExpected' })

/** The comparison, and the attempts of kinds in which nobody else has any. */
export const Expectation = {
  against: AgainstExpected.nullable().describe('Null where no attempt can be compared.'),
  notComparable: z.object({ attempts: z.int(), passes: z.int() }),
}

export type JudgedCredit = z.infer<typeof JudgedCredit>
export type AgainstExpected = z.infer<typeof AgainstExpected>
