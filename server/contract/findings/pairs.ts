import { z } from 'zod'
import { Code } from '../common.ts'
import { Basis } from './basis.ts'
import { DefinedIn } from './definition.ts'

const MeasurePair = z
  .object({
    standard: Code,
    first: Code,
    second: Code,
    ...DefinedIn,
    n: z.int().describe('Tests that decided both.'),
    both: z.int(),
    firstOnly: z.int(),
    secondOnly: z.int(),
    neither: z.int(),
    expected: z
      .number()
      .nullable()
      .describe('Both NO-GO to be expected where only the candidates’ ability ties the two; null: not defined.'),
    phi: z.number().nullable().describe('Correlation that remains once ability is held fixed, from −1 to 1.'),
    p: z.number().nullable().describe('Mantel and Haenszel’s test over strata of the score on all other measures.'),
    adjustedP: z.number().nullable().describe('Adjusted over all pairs of the standard (Benjamini and Hochberg).'),
    verdict: z.enum(['together', 'apart', 'not-shown', 'undefined']),
    reason: z.enum(['no-data', 'one-never-varies', 'too-few']).nullable().describe('Why it is not defined.'),
  })
  .meta({ id: 'MeasurePair' })

/** Which minor measures are NO-GO together beyond what ability makes of it, the clearest first within a standard. */
export const PairFindings = z
  .object({
    items: z.array(MeasurePair),
    falseShare: z
      .number()
      .describe('Of the pairs called together or apart, at most this share is expected to be false.'),
    basis: Basis,
  })
  .meta({ id: 'PairFindings' })

export type PairFindings = z.infer<typeof PairFindings>
