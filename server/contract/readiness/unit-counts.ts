import { z } from 'zod'
import { Code, Page, PlainDate, page, Uuid } from '../common.ts'
import { StatusWord } from '../standards/certifications.ts'

export const UnitCountsQuery = z.strictObject({
  ...Page,
  asOf: PlainDate.optional(),
  unitId: Uuid.optional(),
  certification: Code.optional(),
})

/** How many of one unit, without those below it, stand how. */
export const UnitCounts = z
  .object({
    unitId: Uuid,
    counts: z.array(z.object({ certification: Code, status: StatusWord, required: z.boolean(), count: z.int() })),
  })
  .meta({ id: 'UnitCounts' })

export const UnitCountsPage = page(UnitCounts)

export type UnitCounts = z.infer<typeof UnitCounts>
