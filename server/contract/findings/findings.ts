import { z } from 'zod'
import { Code, Page, page, Uuid } from '../common.ts'
import { Basis } from './basis.ts'
import { DefinedIn } from './definition.ts'
import { Differs } from './differs.ts'
import { Interval } from './interval.ts'
import { FindingsFilters } from './query.ts'
import { Rate } from './rate.ts'

export const FindingsQuery = z.strictObject({ ...Page, ...FindingsFilters })

const FaultCount = z.object({ code: Code, count: z.int() })

/** The unit’s NO-GO rate less that of all other units, in the same days, attempts and arm. */
const DifferenceToRest = z
  .object({
    noGo: z.int().describe('Of the others.'),
    tested: z.int(),
    difference: z.number(),
    interval: Interval.describe('Newcombe’s interval of the difference.'),
    p: z.number().describe('Fisher’s exact test, two-sided.'),
    adjustedP: z.number().describe('Adjusted over all measures of the answer (Benjamini and Hochberg).'),
    verdict: z.enum(['higher', 'lower', 'not-shown']).describe('Only higher and lower differ.'),
  })
  .meta({ id: 'DifferenceToRest' })

const Judged = {
  ...DefinedIn,
  rate: Rate.describe('NO-GO of tested.'),
  rest: DifferenceToRest.nullable().describe('Null without unitId, or where one side has no tests.'),
}

/** Failing measures: tested are the decided ones, trials the marked ones, both by their effective marks. */
export const MeasureFindings = z
  .object({
    items: z
      .array(
        z.object({
          standard: Code,
          measure: Code,
          tested: z.int(),
          noGo: z.int(),
          trials: z.int(),
          incorrect: z.int(),
          faults: z.array(
            FaultCount.safeExtend({ ofIncorrect: z.number().nullable().describe('Share of incorrect trials.') }),
          ),
          notReached: Interval.safeExtend({ count: z.int() })
            .nullable()
            .describe(
              'Tests that ended before it was decided, and the shares NO-GO if none or all of these had failed it; null: none.',
            ),
          incorrectShare: z.number().nullable().describe('Of trials; they are not independent, so without interval.'),
          ...Judged,
        }),
      )
      .describe('From the one failed most often.'),
    next: z.string().nullable(),
    majors: z.array(
      z.object({ standard: Code, major: Code, judged: z.int(), noGo: z.int(), faults: z.array(FaultCount), ...Judged }),
    ),
    basis: Basis,
  })
  .meta({ id: 'MeasureFindings' })

/** Attempts of a sponsor's candidates, credited to the sponsor on the sheet, with one verdict. */
const SponsorFinding = z
  .object({
    sponsorId: Uuid,
    name: z.string(),
    grade: z.string(),
    attempts: z.int(),
    passes: z.int(),
    firstAttempts: z.int(),
    firstPasses: z.int(),
    rate: Rate.describe('GO of attempts, as they came out.'),
    expected: z
      .number()
      .describe(
        'GO that such candidates have with sponsors at large: the same tests, kinds of attempt and graders, and what they had done before.',
      ),
    estimate: Interval.safeExtend({ rate: z.number() }).describe(
      'GO of all attempts of the answer, had everybody had this sponsor; drawn toward the common rate. 95 %.',
    ),
    p: z.number().describe('Two-sided, of passes as far from those expected; candidates are clusters.'),
    adjustedP: z
      .number()
      .nullable()
      .describe('Adjusted over all sponsors asked (Benjamini and Hochberg); null: fewer than 5 attempts.'),
    differs: Differs,
    daysCoached: z.int().describe('Days with a candidate of the unit within the period, added up over candidates.'),
    candidates: z.int().describe('Coached on those days.'),
  })
  .meta({ id: 'SponsorFinding' })

export const SponsorFindings = page(SponsorFinding).meta({ id: 'SponsorFindings' })

export type FindingsQuery = z.infer<typeof FindingsQuery>
export type MeasureFindings = z.infer<typeof MeasureFindings>
export type SponsorFindings = z.infer<typeof SponsorFindings>
