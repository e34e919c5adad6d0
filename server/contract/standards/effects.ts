import { z } from 'zod'
import { Code, Day, PlainDate, Uuid } from '../common.ts'
import { CertificationBody, StatusWord } from './certifications.ts'

/** The day on which standings are compared; left out, the later of today and the day the change takes effect. */
export const EffectBody = z.strictObject({ asOf: PlainDate.optional() }).meta({ id: 'EffectBody' })

/** New terms as they would be entered, and the day on which standings are compared. */
export const TermsEffectBody = z
  .strictObject({ asOf: PlainDate.optional(), terms: CertificationBody })
  .meta({ id: 'TermsEffectBody' })

const Stands = z.object({ status: StatusWord, validThrough: Day.nullable(), required: z.boolean() }).nullable()

/** Whose standing would change on a day if a change were made now. */
export const Effect = z
  .object({
    asOf: PlainDate,
    items: z.array(
      z.object({
        soldierId: Uuid,
        rosterNumber: z.string(),
        name: z.string(),
        grade: z.string(),
        unitId: Uuid,
        certification: Code,
        before: Stands,
        after: Stands,
      }),
    ),
    counts: z
      .array(
        z.object({
          certification: Code,
          before: StatusWord.nullable(),
          after: StatusWord.nullable(),
          requiredBefore: z.boolean(),
          requiredAfter: z.boolean(),
          count: z.int(),
        }),
      )
      .describe('Of all, not of this page.'),
    people: z.int().describe('How many were compared.'),
    sheets: z.int().describe('Sheets that would be held or counted otherwise.'),
    next: z.string().nullable(),
  })
  .meta({ id: 'Effect' })

export type TermsEffectBody = z.infer<typeof TermsEffectBody>
export type Effect = z.infer<typeof Effect>
