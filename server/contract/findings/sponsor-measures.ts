import { z } from 'zod'
import { Code, Uuid } from '../common.ts'
import { Basis } from './basis.ts'
import { DefinedIn } from './definition.ts'
import { FindingsFilters } from './query.ts'
import { Rate } from './rate.ts'

export const SponsorMeasuresQuery = z.strictObject({ ...FindingsFilters, sponsorId: Uuid })

const SponsorMeasure = z
  .object({
    standard: Code,
    measure: Code,
    major: z.boolean(),
    ...DefinedIn,
    own: Rate.describe('NO-GO of tested, of the sponsor’s candidates.'),
    others: Rate.describe('The same of all other sponsors’ candidates.'),
    expected: z
      .number()
      .nullable()
      .describe('NO-GO that candidates of the same kind of attempt and score on all other measures have with others.'),
    adjustedP: z.number().nullable().describe('Adjusted over all measures (Benjamini and Hochberg); null: not asked.'),
    differs: z.enum(['more', 'fewer', 'no', 'few']).describe('By more than chance allows; few: too little to ask.'),
  })
  .meta({ id: 'SponsorMeasure' })

/** What all candidates of one sponsor fail; first what they fail more than such candidates of others. */
export const SponsorMeasures = z
  .object({ items: z.array(SponsorMeasure), basis: Basis })
  .meta({ id: 'SponsorMeasures' })

export type SponsorMeasuresQuery = z.infer<typeof SponsorMeasuresQuery>
export type SponsorMeasures = z.infer<typeof SponsorMeasures>
