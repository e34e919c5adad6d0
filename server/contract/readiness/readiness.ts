import { z } from 'zod'
import { Code, Day, Page, PlainDate, page, Uuid } from '../common.ts'
import { ReadinessSort } from '../standards/certifications.ts'

export const ReadinessQuery = z.strictObject({
  ...Page,
  asOf: PlainDate.optional(),
  unitId: Uuid.optional(),
  certification: Code.optional(),
  sort: ReadinessSort.optional().describe('Left out: by roster number.'),
  standing: z
    .enum(['can', 'cannot'])
    .optional()
    .describe('Only who can stand, or only who cannot though they must or have begun. The counts stay of all.'),
})

/** Of a unit's people who are required to hold a certification on a day, how many were certified. */
export const ReadinessPoint = z
  .object({
    asOf: Day,
    unitId: Uuid.nullable().describe(
      'A unit directly below the one asked about, with all below it; null: people in none of them.',
    ),
    certification: Code,
    required: z.int(),
    certified: z.int(),
  })
  .meta({ id: 'ReadinessPoint' })

export const ReadinessTrend = page(ReadinessPoint)

export const TrendQuery = z.strictObject({
  unitId: Uuid.optional().describe('Left out: the whole tree.'),
  certification: Code.optional(),
  from: PlainDate.optional().describe('Left out: eighteen months before `to`.'),
  to: PlainDate.optional().describe('Left out: today.'),
})

export const LapseQuery = z.strictObject({
  ...Page,
  unitId: Uuid.optional(),
  certification: Code.optional(),
  through: PlainDate.optional().describe('Left out: in three months.'),
})

/** Somebody whose certification ends unless it is renewed. */
export const Lapse = z
  .object({
    soldierId: Uuid,
    rosterNumber: z.string(),
    name: z.string(),
    grade: z.string(),
    unitId: Uuid,
    certification: Code,
    required: z.boolean(),
    validThrough: Day,
  })
  .meta({ id: 'Lapse' })

export const LapsePage = page(Lapse)

export type ReadinessQuery = z.infer<typeof ReadinessQuery>
export type ReadinessPoint = z.infer<typeof ReadinessPoint>
export type TrendQuery = z.infer<typeof TrendQuery>
export type Lapse = z.infer<typeof Lapse>
