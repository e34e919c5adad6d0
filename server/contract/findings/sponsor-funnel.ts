import { z } from 'zod'
import { Basis } from './basis.ts'
import { WhyNotEstimated } from './credit.ts'
import { Interval } from './interval.ts'
import { Rate } from './rate.ts'

const FunnelLine = z.object({ attempts: z.int(), limits95: Interval, limits998: Interval }).meta({ id: 'FunnelLine' })

const Funnel = z
  .object({
    rate: Rate.describe('Of all attempts with a sponsor: the rate everybody is held against.'),
    sponsors: z.int(),
    mostAttempts: z.int().describe('Of one sponsor.'),
    lines: z.array(FunnelLine).describe('Limits by attempts, from 1 to the most; empty where no limits exist.'),
    spread: z
      .object({
        kind: z.union([z.enum(['fitted', 'no-over-dispersion']), WhyNotEstimated]),
        alpha: z.number().nullable(),
        beta: z.number().nullable(),
      })
      .describe('The beta distribution of the sponsors’ rates, which the estimates are drawn by.'),
  })
  .meta({ id: 'SponsorFunnel' })

/** The figures of the unit that its sponsors stand beside. */
export const SponsorFunnelFindings = z
  .object({
    all: Funnel,
    first: Funnel.describe('Of first attempts.'),
    withoutSponsor: z.object({ attempts: z.int(), passes: z.int() }).describe('Attempts that are credited to nobody.'),
    basis: Basis,
  })
  .meta({ id: 'SponsorFunnelFindings' })

export type SponsorFunnelFindings = z.infer<typeof SponsorFunnelFindings>
