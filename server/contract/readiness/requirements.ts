import { z } from 'zod'
import { Code, Page, PlainDate, Uuid } from '../common.ts'

export const RequirementQuery = z.strictObject({ ...Page, asOf: PlainDate.optional(), unitId: Uuid.optional() })

/** Of one unit and grade: how many must hold a certification, and how many do. */
export const Requirements = z
  .object({
    asOf: PlainDate,
    items: z.array(
      z.object({
        unitId: Uuid,
        grade: z.string(),
        certification: Code,
        people: z.int().describe('Of the strength in this unit and grade.'),
        required: z.int(),
        certified: z.int().describe('Of those required.'),
        others: z.int().describe('Certified without being required.'),
      }),
    ),
    next: z.string().nullable(),
  })
  .meta({ id: 'Requirements' })
export type Requirements = z.infer<typeof Requirements>
