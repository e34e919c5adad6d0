import { z } from 'zod'
import { Uuid } from '../common.ts'
import { Basis } from './basis.ts'
import { Differs } from './differs.ts'
import { Interval } from './interval.ts'
import { Rate } from './rate.ts'

const Severity = Interval.safeExtend({ value: z.number() })
  .describe('Logits of a trial, above 0: stricter than the average grader; drawn toward 0. 95 %.')
  .meta({ id: 'Severity' })

const GradedTwice = z
  .object({
    attempts: z.int().describe('Attempts that another graded, too; where two others did, it counts twice.'),
    stricter: z.int().describe('On more measures NO-GO where the other gave GO than the other way round.'),
    lenient: z.int(),
    p: z.number().describe('Sign test, two-sided.'),
    adjustedP: z.number().describe('Adjusted over all graders of the answer (Benjamini and Hochberg).'),
    differs: z.enum(['stricter', 'lenient', 'no']),
  })
  .meta({ id: 'GradedTwice' })

const GraderFinding = z
  .object({
    graderId: Uuid,
    name: z.string(),
    grade: z.string(),
    attempts: z.int(),
    passes: z.int(),
    rate: Rate,
    severity: Severity.nullable().describe('Null: no test with marks is in a fit yet.'),
    correct: Interval.safeExtend({ rate: z.number() })
      .nullable()
      .describe('What that makes of a trial which the average grader marks correct as often as `usualCorrect` says.'),
    p: z.number().nullable(),
    adjustedP: z.number().nullable().describe('Adjusted over all graders asked (Benjamini and Hochberg).'),
    differs: Differs.describe('In severity; above: stricter. few: fewer than 5 attempts, or nothing known yet.'),
    twice: GradedTwice.nullable().describe('Null: graded no attempt that another graded, too.'),
  })
  .meta({ id: 'GraderFinding' })

/**
 * How strict each grader is, by name. Severity rests on all tests of the standards asked about, whatever the days, unit, arm and
 * kind of attempt; what was graded twice follows the filters.
 */
export const GraderFindings = z
  .object({
    items: z.array(GraderFinding),
    next: z.string().nullable(),
    unit: Rate,
    usualCorrect: z
      .number()
      .nullable()
      .describe('Share of trials of average candidates that the average grader marks correct.'),
    basis: Basis,
  })
  .meta({ id: 'GraderFindings' })

export type GraderFindings = z.infer<typeof GraderFindings>
