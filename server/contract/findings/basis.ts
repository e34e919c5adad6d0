import { z } from 'zod'

const Count = z.int().min(0)

/** What an answer rests on, and what it leaves out and why. */
export const Basis = z
  .object({
    level: z.number().describe('Confidence level of every interval in the answer.'),
    attempts: Count.describe('Counted, non-void, first-grader tests within the filters.'),
    passes: Count,
    stopped: Count.describe('Of the attempts: ended by a major NO-GO. What they did not reach is in no figure.'),
    recorded: Count.describe('Of the attempts: outcome only, without marks; in no figure about measures.'),
    notCounted: z
      .object({ held: Count, rejected: Count, void: Count, secondGrader: Count, practice: Count })
      .describe('Sheets of the same standard, arm, unit and days that are no attempts, first or later.'),
  })
  .meta({ id: 'FindingsBasis' })

export type Basis = z.infer<typeof Basis>
