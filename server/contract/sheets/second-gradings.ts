import { z } from 'zod'
import { Code, Day, Page, page, Uuid } from '../common.ts'

export const Graded = z.object({
  sheetId: Uuid,
  graderId: Uuid,
  grader: z.string(),
  outcome: z.enum(['GO', 'NO-GO', 'VOID']),
})

/** One attempt that two graders graded independently; the first one's sheet is the one that may count. */
export const SecondGrading = z
  .object({
    candidateId: Uuid,
    candidate: z.string(),
    standard: Code,
    day: Day,
    first: Graded,
    second: Graded,
    differs: z.boolean().describe('The two came to different outcomes; a void one differs from none.'),
  })
  .meta({ id: 'SecondGrading' })
export const SecondGradingPage = page(SecondGrading)

export const SecondGradingQuery = z.strictObject({
  ...Page,
  differing: z.enum(['true', 'false']).default('false').describe('Only those that differ in outcome.'),
})

export type SecondGrading = z.infer<typeof SecondGrading>
