import { z } from 'zod'
import { Code, Page, PlainDate, page, Uuid } from './common.ts'

export const FindingsQuery = z.strictObject({
  ...Page,
  standard: Code.optional(),
  from: PlainDate.optional(),
  to: PlainDate.optional(),
  unitId: Uuid.optional(),
  attempts: z.enum(['first', 'retest', 'all']).default('all'),
  arm: Code.optional(),
})

const FaultCount = z.object({ code: Code, count: z.int() })

/** Failing measures: tested are the decided ones, trials the marked ones, both by their effective marks. */
export const MeasureFindings = z
  .object({
    items: z.array(
      z.object({
        standard: Code,
        measure: Code,
        tested: z.int(),
        noGo: z.int(),
        trials: z.int(),
        incorrect: z.int(),
        faults: z.array(FaultCount),
      }),
    ),
    next: z.string().nullable(),
    majors: z.array(
      z.object({ standard: Code, major: Code, judged: z.int(), noGo: z.int(), faults: z.array(FaultCount) }),
    ),
  })
  .meta({ id: 'MeasureFindings' })

/** Attempts of a sponsor's candidates, credited to the sponsor on the sheet. */
const SponsorFinding = z
  .object({
    sponsorId: Uuid,
    name: z.string(),
    grade: z.string(),
    attempts: z.int(),
    passes: z.int(),
    firstAttempts: z.int(),
    firstPasses: z.int(),
  })
  .meta({ id: 'SponsorFinding' })

export const SponsorFindings = page(SponsorFinding).meta({ id: 'SponsorFindings' })

export type FindingsQuery = z.infer<typeof FindingsQuery>
export type MeasureFindings = z.infer<typeof MeasureFindings>
export type SponsorFindings = z.infer<typeof SponsorFindings>
