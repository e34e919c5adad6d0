import { z } from 'zod'
import { Basis } from './basis.ts'
import { Interval } from './interval.ts'
import { Rate } from './rate.ts'

const FunnelLine = z
  .object({
    attempts: z.int(),
    usual: Interval.describe('19 in 20 sponsors who make no difference lie within.'),
    called: Interval.describe('Outside, somebody is called different.'),
  })
  .meta({ id: 'FunnelLine' })

/** The figures of the unit that its sponsors stand beside. */
export const SponsorFunnelFindings = z
  .object({
    rate: Rate.describe('Of all attempts with a sponsor.'),
    sponsors: z.int(),
    asked: z.int().describe('Sponsors with 5 attempts or more: the family of the verdicts.'),
    mostAttempts: z.int().describe('Of one sponsor.'),
    lines: z
      .array(FunnelLine)
      .describe(
        'Limits by attempts, from 1 to the most, with candidates as random effects; empty where there are none.',
      ),
    withoutSponsor: z.object({ attempts: z.int(), passes: z.int() }).describe('Attempts that are credited to nobody.'),
    basis: Basis,
  })
  .meta({ id: 'SponsorFunnelFindings' })

export type SponsorFunnelFindings = z.infer<typeof SponsorFunnelFindings>
