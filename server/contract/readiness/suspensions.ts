import { z } from 'zod'
import { Code, Day, Page, page, Uuid } from '../common.ts'

export const SuspensionQuery = z.strictObject({ ...Page, unitId: Uuid.optional(), soldierId: Uuid.optional() })

/** A suspension with whom it concerns, as of today. */
export const Suspension = z
  .object({
    id: Uuid,
    soldierId: Uuid,
    rosterNumber: z.string(),
    name: z.string(),
    grade: z.string().nullable().describe('Today; null: no longer in the strength.'),
    certification: Code,
    from: Day,
    reason: z.string(),
    lift: Day.nullable().describe('From this day on it is not in force; null: until lifted.'),
    liftReason: z.string().nullable(),
    inForce: z.boolean(),
  })
  .meta({ id: 'Suspension' })

export const SuspensionPage = page(Suspension)

export type Suspension = z.infer<typeof Suspension>
