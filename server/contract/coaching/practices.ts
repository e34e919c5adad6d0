import { z } from 'zod'
import { Code, Day, Instant, page, Uuid } from '../common.ts'

/** Nobody practises one measure more often in one go. */
const MOST_TRIALS = 200

const PractisedMeasure = z
  .strictObject({
    code: Code,
    trials: z
      .array(z.enum(['correct', 'incorrect']))
      .min(1, { error: 'Mark a trial, or leave the measure out.' })
      .max(MOST_TRIALS),
    faults: z
      .array(z.strictObject({ trial: z.int().min(1).max(MOST_TRIALS), code: Code }))
      .max(2000)
      .default([]),
  })
  .meta({ id: 'PractisedMeasure' })

/** Practice of chosen minor measures, in the order in which they were chosen; what was not tried is left out. */
export const PracticeBody = z
  .strictObject({
    candidateId: Uuid,
    standard: Code,
    arm: Code.nullable(),
    startedAt: Instant,
    finishedAt: Instant,
    measures: z.array(PractisedMeasure).min(1, { error: 'Name a measure that was tried.' }).max(100),
  })
  .meta({ id: 'PracticeBody' })

export const Practice = z
  .object({
    id: Uuid,
    ...PracticeBody.shape,
    on: Day,
    by: z.string().describe('Grade and name of who led it, or the account’s name where it is no soldier’s.'),
    mayRemove: z.boolean(),
  })
  .meta({ id: 'Practice' })
export const PracticePage = page(Practice)

export type PracticeBody = z.infer<typeof PracticeBody>
export type Practice = z.infer<typeof Practice>
