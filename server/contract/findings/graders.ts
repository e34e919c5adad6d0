import { z } from 'zod'
import { Uuid } from '../common.ts'
import { Basis } from './basis.ts'
import { Expectation } from './credit.ts'
import { Rate } from './rate.ts'

const GraderFinding = z
  .object({
    graderId: Uuid,
    name: z.string(),
    grade: z.string(),
    attempts: z.int(),
    passes: z.int(),
    rate: Rate,
    ...Expectation,
  })
  .meta({ id: 'GraderFinding' })

/** GO of each grader against what the unit’s own rates would give for the same attempts, by name. */
export const GraderFindings = z
  .object({ items: z.array(GraderFinding), next: z.string().nullable(), unit: Rate, basis: Basis })
  .meta({ id: 'GraderFindings' })

export type GraderFindings = z.infer<typeof GraderFindings>
