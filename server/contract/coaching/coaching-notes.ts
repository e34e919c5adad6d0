import { z } from 'zod'
import { Code, Instant, PlainDate, page, storableText, Uuid } from '../common.ts'

/** What was drilled on a day: measures of a standard, and what is to be remembered. One of the two says something. */
export const CoachingNoteBody = z
  .strictObject({
    on: PlainDate,
    standard: Code,
    measures: z.array(Code).max(200).default([]),
    text: storableText(1000).default(''),
  })
  .refine(({ measures, text }) => measures.length > 0 || text.trim() !== '', {
    error: 'Name a measure that was drilled, or write what there is to remember.',
    path: ['text'],
  })
  .refine(({ measures }) => new Set(measures).size === measures.length, {
    error: 'A measure is named twice.',
    path: ['measures'],
  })
  .meta({ id: 'CoachingNoteBody' })

export const CoachingNote = z
  .object({
    id: Uuid,
    candidateId: Uuid,
    on: PlainDate,
    standard: Code,
    measures: z.array(Code),
    text: z.string(),
    by: z.string().describe('Grade and name, or the account’s name where it is no soldier’s.'),
    writtenAt: Instant,
    changedAt: Instant.nullable(),
    mayChange: z.boolean().describe('Whether this account may change it now.'),
    mayRemove: z.boolean(),
  })
  .meta({ id: 'CoachingNote' })
export const CoachingNotePage = page(CoachingNote)

export type CoachingNoteBody = z.infer<typeof CoachingNoteBody>
export type CoachingNote = z.infer<typeof CoachingNote>
