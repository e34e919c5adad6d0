import { z } from 'zod'
import { Day, PlainDate, Uuid } from '../common.ts'

/** Sisters in the order they are to stand in: all units right below one, each once. */
export const UnitOrderBody = z
  .strictObject({
    parentId: Uuid.nullable().describe('Null: the units at the top.'),
    ids: z.array(Uuid).min(1).max(2000),
  })
  .meta({ id: 'UnitOrderBody' })

/** Where a unit goes with all below it, and from which day on. */
export const UnitMoveBody = z
  .strictObject({ parentId: Uuid.nullable().describe('Null: to the top.'), from: PlainDate })
  .meta({ id: 'UnitMoveBody' })

export const UnitMoveQuery = z.strictObject({
  parentId: Uuid.optional().describe('Left out: to the top.'),
  from: PlainDate,
})

/** What a move takes along. The unit as it was keeps its past, closed from that day on. */
export const UnitMovePreview = z
  .object({
    from: Day,
    units: z.int().describe('The unit and those open below it.'),
    people: z.int().describe('In them on that day or later.'),
    testDays: z.int().describe('Planned for them on that day or later.'),
    ceremonies: z.int().describe('Planned for them on that day or later.'),
    accounts: z.int().describe('That belong to one of them, and go along at once.'),
    required: z
      .array(z.string())
      .describe('Certifications that are required of these people before and not after, or after and not before.'),
    zone: z
      .string()
      .nullable()
      .describe('The time zone it keeps as its own, for another one holds there; null: the same.'),
  })
  .meta({ id: 'UnitMovePreview' })

export const UnitMoved = z
  .object({ id: Uuid.describe('The unit it is from now on.'), people: z.int(), units: z.int() })
  .meta({ id: 'UnitMoved' })

export type UnitOrderBody = z.infer<typeof UnitOrderBody>
export type UnitMoveBody = z.infer<typeof UnitMoveBody>
export type UnitMovePreview = z.infer<typeof UnitMovePreview>
export type UnitMoved = z.infer<typeof UnitMoved>
