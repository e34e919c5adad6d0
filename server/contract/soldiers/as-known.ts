import { z } from 'zod'
import { Code, Day, Instant, PlainDate, Uuid } from '../common.ts'
import { CertificationStatus, Retest } from '../standards/certifications.ts'

const KnownStanding = CertificationStatus.extend({
  retests: z.array(
    Retest.pick({
      standard: true,
      attempt: true,
      on: true,
      earliest: true,
      due: true,
      pastDue: true,
      needsReview: true,
    }),
  ),
}).meta({ id: 'KnownStanding' })

const KnownSheet = z
  .object({
    id: Uuid,
    standard: Code,
    version: z.int(),
    arm: z.string().nullable(),
    day: Day,
    outcome: z.enum(['GO', 'NO-GO', 'VOID']),
    isSecond: z.boolean().describe('The second grader’s sheet of an attempt.'),
    revision: z.int(),
    state: z.enum(['counted', 'held', 'rejected']),
  })
  .meta({ id: 'KnownSheet' })

const KnownPicture = z.object({
  certifications: z.array(KnownStanding).describe('Those in which there is something to say.'),
  sheets: z.array(KnownSheet).describe('Tests up to the day, in order.'),
})

const EnteredFact = z
  .discriminatedUnion('kind', [
    z.object({
      kind: z.literal('sheet'),
      sheetId: Uuid,
      revision: z.int(),
      standard: Code,
      day: Day,
      outcome: z.enum(['GO', 'NO-GO', 'VOID']),
      state: KnownSheet.shape.state,
    }),
    z.object({ kind: z.literal('decision'), sheetId: Uuid, state: KnownSheet.shape.state }),
    z.object({ kind: z.literal('award'), certification: Code, awardedOn: Day, validThrough: Day }),
    z.object({ kind: z.literal('withdrawal'), certification: Code, on: Day }),
    z.object({ kind: z.literal('suspension'), certification: Code, from: Day }),
    z.object({ kind: z.literal('lift'), certification: Code, from: Day, on: Day }),
    z.object({ kind: z.literal('review'), standard: Code, on: Day }),
    z.object({ kind: z.literal('due-move'), certification: Code, standard: Code, on: Day, due: Day }),
    z.object({ kind: z.enum(['approval', 'refusal']), certification: Code, sheetId: Uuid, on: Day }),
    z.object({ kind: z.literal('extension'), certification: Code, days: z.int() }),
    z.object({ kind: z.enum(['merge', 'unmerge', 'word-taken-back']) }),
    z.object({ kind: z.literal('terms'), certification: Code, effectiveFrom: Day }),
    z.object({ kind: z.literal('break'), standard: Code, version: z.int(), effectiveFrom: Day }),
  ])
  .meta({ id: 'EnteredFact' })

/** A day of a soldier as it was known at the end of another, as it is known now, and what made the difference. */
export const AsKnown = z
  .object({
    soldierId: Uuid,
    knownOn: PlainDate,
    asOf: PlainDate,
    until: Instant.describe('The end of the day on which it was known, in the soldier’s unit.'),
    known: KnownPicture,
    now: KnownPicture,
    differences: z
      .array(
        z.object({
          at: Instant,
          entered: z.array(EnteredFact),
          certifications: z.array(
            z.object({ certification: Code, before: KnownStanding.nullable(), after: KnownStanding.nullable() }),
          ),
          sheets: z.array(z.object({ id: Uuid, before: KnownSheet.nullable(), after: KnownSheet.nullable() })),
        }),
      )
      .describe('What was entered later and changes the picture, in order.'),
    complete: z
      .boolean()
      .describe(
        'False: the record does not hold all that the present standing rests on, so what was known may lack it.',
      ),
  })
  .meta({ id: 'AsKnown' })

export const AsKnownQuery = z.strictObject({
  on: PlainDate.describe('What was known at the end of this day.'),
  asOf: PlainDate.optional().describe('How the soldier stood on this day. Left out: the same day.'),
})

export type AsKnown = z.infer<typeof AsKnown>
export type EnteredFact = z.infer<typeof EnteredFact>
export type KnownStanding = z.infer<typeof KnownStanding>
export type KnownSheet = z.infer<typeof KnownSheet>
