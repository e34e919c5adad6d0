import { z } from 'zod'
import { Code, Instant, Page, PlainDate, page, Uuid, Words } from '../common.ts'

/** Kinds of changes by which the record is read. */
export const RecordKind = z.enum([
  'sheets',
  'people',
  'coaching',
  'certifications',
  'test-days',
  'ceremonies',
  'standards',
  'accounts',
  'files',
  'sign-ins',
])

export const RecordQuery = z.strictObject({
  ...Page,
  from: PlainDate.optional().describe('First day, UTC.'),
  to: PlainDate.optional().describe('Last day, UTC.'),
  account: Words.optional().describe('Name of an account.'),
  action: Code.optional().describe('An action, or how it begins: `sheet`, `sheet.amended`.'),
  kind: z
    .enum([...RecordKind.options, 'changes'])
    .optional()
    .describe('Of what kind; `changes`: all but sign-ins.'),
  soldierId: Uuid.optional().describe('What is about this soldier: entry, grade sheets as candidate, account.'),
  subjectId: Uuid.optional().describe('Id of what was changed.'),
})

/** One entry of the record of changes. */
export const RecordItem = z
  .object({
    seq: z.int(),
    at: Instant,
    accountId: Uuid.nullable(),
    accountName: z.string().nullable(),
    address: z.string().nullable(),
    action: z.string(),
    subjectKind: z.string(),
    subjectId: z.string().nullable(),
    before: z.unknown(),
    after: z.unknown(),
    reason: z.string().nullable(),
    hash: z.string(),
    emptied: z
      .array(z.enum(['who', 'what']))
      .describe(
        'Parts taken out when a soldier’s personal data was removed: who (name, address), what (before, after, reason).',
      ),
  })
  .meta({ id: 'RecordItem' })

export const RecordPage = page(RecordItem)

/** Whether the record is whole, and if not where. */
export const RecordVerification = z
  .object({
    whole: z.boolean(),
    entries: z.int(),
    lastHash: z.string().describe('Note it elsewhere: whoever cuts off the end of the record and its head changes it.'),
    problems: z.array(z.object({ seq: z.int(), detail: z.string() })),
  })
  .meta({ id: 'RecordVerification' })

export type RecordKind = z.infer<typeof RecordKind>
export type RecordItem = z.infer<typeof RecordItem>
export type RecordVerification = z.infer<typeof RecordVerification>
