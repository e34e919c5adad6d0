import { z } from 'zod'
import { Code } from '../common.ts'
import { DefinedIn } from './definition.ts'
import { Interval } from './interval.ts'

/** A chance-corrected coefficient: 1 is perfect, 0 what chance gives; or why there is none. */
const Agreement = z
  .object({
    value: z.number().nullable(),
    interval: Interval.nullable().describe('Null also where no disagreement was seen: it would claim certainty.'),
    observed: z.number().nullable().describe('Share of agreement.'),
    byChance: z.number().nullable().describe('Share of agreement expected by chance.'),
    band: z.enum(['poor', 'slight', 'fair', 'moderate', 'substantial', 'almost-perfect']).nullable(),
    reason: z.enum(['no-data', 'one-category']).nullable().describe('Why there is no value.'),
  })
  .meta({ id: 'Agreement' })

const MeasureAgreement = z
  .object({
    standard: Code,
    measure: Code.nullable().describe('Null: the outcome of the whole test.'),
    major: z.boolean(),
    ...DefinedIn,
    attempts: z.int().describe('Attempts on which two or more graders decided it.'),
    table: z
      .object({ bothGo: z.int(), firstGoOnly: z.int(), secondGoOnly: z.int(), bothNoGo: z.int() })
      .describe('The first grader beside the second; a third grader is only in fleiss and ac1.'),
    cohen: Agreement.describe('Cohen’s kappa of first and second grader.'),
    fleiss: Agreement.describe('Fleiss’ kappa of all graders.'),
    ac1: Agreement.describe('Gwet’s AC1 of all graders, steady where nearly all are GO.'),
  })
  .meta({ id: 'MeasureAgreement' })

const Count = z.int().min(0)

/** How far graders agree on attempts that two or more of them graded. */
export const AgreementFindings = z
  .object({
    items: z.array(MeasureAgreement),
    basis: z.object({
      level: z.number(),
      attempts: Count.describe('Attempts graded twice or more.'),
      leftOut: z
        .object({
          firstNotCounted: Count.describe('The first grader’s sheet is missing, held, rejected or void.'),
          notCounted: Count.describe('The second grader’s sheet is held or rejected.'),
          void: Count,
          recorded: Count.describe('One of both has no marks.'),
          notTheSameTest: Count.describe('Another candidate, standard or the same grader on both.'),
        })
        .describe('Second graders’ sheets that are in no figure.'),
    }),
  })
  .meta({ id: 'AgreementFindings' })

export type AgreementFindings = z.infer<typeof AgreementFindings>
export type Agreement = z.infer<typeof Agreement>
