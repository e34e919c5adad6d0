import { z } from 'zod'
import { PlainDate, page, Uuid } from '../common.ts'

export const VoidQuery = z.strictObject({
  from: PlainDate.optional(),
  to: PlainDate.optional(),
  unitId: Uuid.optional(),
})

/** Tests that a grader made void; those after a failure came after a major NO-GO or once the minimum was out of reach. */
export const VoidFindings = page(
  z.object({ graderId: Uuid, name: z.string(), grade: z.string(), voids: z.int(), afterFailure: z.int() }),
).meta({ id: 'VoidFindings' })

export type VoidQuery = z.infer<typeof VoidQuery>
export type VoidFindings = z.infer<typeof VoidFindings>
