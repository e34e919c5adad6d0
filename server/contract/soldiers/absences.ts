import { z } from 'zod'
import { Page, PlainDate, page, Uuid } from '../common.ts'

export const ABSENCE_KINDS = ['leave', 'course', 'duty elsewhere', 'not available'] as const
export const AbsenceKind = z.enum(ABSENCE_KINDS)

/** Days on which a soldier cannot be called on, both inclusive; through null: until further notice. The kind is all that is kept. */
export const AbsenceBody = z
  .strictObject({ from: PlainDate, through: PlainDate.nullable().default(null), kind: AbsenceKind })
  .refine(({ from, through }) => through === null || from <= through, {
    error: 'The absence ends before it begins: mend from or through.',
    path: ['through'],
  })
  .meta({ id: 'AbsenceBody' })

const Fields = { id: Uuid, soldierId: Uuid, from: PlainDate, through: PlainDate.nullable(), kind: AbsenceKind }

export const Absence = z.object(Fields).meta({ id: 'Absence' })
export const AbsencePage = page(Absence)

/** Somebody absent on a day. */
export const AbsentSoldier = z
  .object({ ...Fields, rosterNumber: z.string(), name: z.string(), grade: z.string(), unitId: Uuid })
  .meta({ id: 'AbsentSoldier' })
export const AbsentSoldierPage = page(AbsentSoldier)

export const AbsentQuery = z.strictObject({ ...Page, on: PlainDate.optional(), unitId: Uuid.optional() })

export type AbsenceBody = z.infer<typeof AbsenceBody>
export type Absence = z.infer<typeof Absence>
export type AbsentSoldier = z.infer<typeof AbsentSoldier>
