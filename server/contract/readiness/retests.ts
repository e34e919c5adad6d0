import { z } from 'zod'
import { Code, Day, Page, PlainDate, page, Reason, Uuid } from '../common.ts'

const UnitOnDay = { asOf: PlainDate.optional().describe('Left out: today.'), unitId: Uuid.optional() }

export const RetestQuery = z.strictObject({ ...Page, ...UnitOnDay, soldierId: Uuid.optional() })

export const BacklogQuery = z.strictObject({
  ...UnitOnDay,
  months: z.coerce.number<number>().int().min(1).max(60).default(18),
})

export const KeptGoQuery = z.strictObject({
  ...Page,
  ...UnitOnDay,
  days: z.coerce.number<number>().int().min(0).max(366).default(30).describe('Within so many days from then.'),
})

/** An open retest gets another due day. */
export const DueMoveBody = z
  .strictObject({ certification: Code, standard: Code, due: PlainDate, reason: Reason })
  .meta({ id: 'DueMoveBody' })

/** The open retests of a unit as they were at the end of a day. */
export const BacklogPoint = z
  .object({ day: Day, open: z.int(), pastDue: z.int(), needsReview: z.int() })
  .meta({ id: 'BacklogPoint' })

export const Backlog = z.object({ asOf: Day, points: z.array(BacklogPoint) }).meta({ id: 'Backlog' })

/** A GO that counts toward a certification not yet complete, and until when. */
export const KeptGo = z
  .object({
    soldierId: Uuid,
    rosterNumber: z.string(),
    name: z.string(),
    grade: z.string(),
    unitId: Uuid,
    certification: Code,
    standard: Code,
    on: Day,
    countsUntil: Day,
  })
  .meta({ id: 'KeptGo' })

export const KeptGoPage = page(KeptGo)

export type DueMoveBody = z.infer<typeof DueMoveBody>
export type Backlog = z.infer<typeof Backlog>
export type BacklogPoint = z.infer<typeof BacklogPoint>
export type KeptGo = z.infer<typeof KeptGo>
