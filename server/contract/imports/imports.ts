import { z } from 'zod'
import { Instant, Page, page, storableText, Uuid } from '../common.ts'

export const ImportKind = z.enum([
  'roster',
  'awards',
  'results',
  'sponsorships',
  'appointments',
  'sheets',
  'standards',
  'ceremonies',
])
export const ImportState = z.enum(['read', 'checking', 'checked', 'storing', 'stored', 'failed', 'cancelled'])
export const RowOutcome = z.enum(['added', 'changed', 'unchanged', 'held', 'refused'])
export const DateAnswer = z.enum(['day-first', 'month-first', 'year-first', 'serial-1900', 'serial-1904'])

const Mapping = z
  .record(z.string().max(200), z.int().min(0).max(2000))
  .describe('Column of the file, from 0, by what it holds.')
const Counts = z.object({ added: z.int(), changed: z.int(), unchanged: z.int(), held: z.int(), refused: z.int() })

/** Something about a file that only somebody who knows it can say. Until it is said, the rows it is about are refused. */
export const ImportQuestion = z
  .object({
    key: z.string(),
    about: z.enum(['name', 'grade', 'arm']),
    known: z.string().nullable().describe('Of a name: as it is on the roster.'),
    given: z.string().describe('As the file has it.'),
    rosterNumber: z.string().nullable().describe('Of a name: whose.'),
    choices: z
      .array(z.string())
      .describe(
        'Of a name: "as-here" (the same person, the name on the roster stays), "as-given" (the same person, the name of the file is right), "leave-out" (somebody else). Of a grade or arm: "add" (it goes into the list of the unit), "leave-out", or "as:" with one of the list that is meant.',
      ),
    rows: z.int(),
    firstRows: z.array(z.int()).max(5),
    answer: z.string().nullable(),
  })
  .meta({ id: 'ImportQuestion' })

/** A file that was sent, and how far it has come. */
export const Import = z
  .object({
    id: Uuid,
    createdAt: Instant,
    expiresAt: Instant.describe('Then the file and all that was read of it are removed.'),
    fileName: z.string(),
    format: z.enum(['csv', 'xlsx', 'json']),
    sheetName: z.string().nullable(),
    sheetNames: z.array(z.string()),
    rows: z.int(),
    kind: ImportKind,
    state: ImportState,
    stage: z.string(),
    done: z.int(),
    total: z.int(),
    counts: Counts.nullable(),
    newUnits: z.array(z.string()).describe('Paths of units that are added with it.'),
    questions: z.array(ImportQuestion).describe('What has to be said, once it is checked; say it with the next check.'),
    problem: z.string().nullable(),
  })
  .meta({ id: 'Import' })
export const ImportPage = page(Import)

/** How the columns of the file are read, and what has to be said first. */
export const ImportColumns = z
  .object({
    kind: ImportKind,
    columns: z.array(
      z.object({
        key: z.string(),
        title: z.string(),
        hint: z.string(),
        needed: z.boolean(),
        index: z.int().nullable().describe('Column of the file; null: none.'),
        how: z.enum(['known', 'alike', 'remembered', 'chosen']).nullable(),
      }),
    ),
    file: z.array(z.object({ label: z.string(), samples: z.array(z.string()) })),
    questions: z.array(
      z.object({
        key: z.string(),
        title: z.string(),
        answers: z.array(DateAnswer),
        examples: z.array(z.string()),
        rows: z.int(),
        answer: DateAnswer.nullable(),
      }),
    ),
  })
  .meta({ id: 'ImportColumns' })

export const ImportPlan = z
  .strictObject({
    kind: ImportKind,
    mapping: Mapping.optional().describe('Left out: as suggested.'),
    dates: z
      .record(z.string().max(200), DateAnswer)
      .default({})
      .describe('How ambiguous dates are read, by what the column holds.'),
    answers: z
      .record(z.string().max(500), z.string().max(100))
      .default({})
      .describe('What is said to the questions of the check before, by key.'),
  })
  .meta({ id: 'ImportPlan' })

export const ImportRow = z
  .object({
    number: z.int().describe('As the spreadsheet program counts; of JSON the place in the list.'),
    outcome: RowOutcome,
    about: z.string(),
    reasons: z.array(z.string()),
  })
  .meta({ id: 'ImportRow' })
export const ImportRowPage = page(ImportRow)

export const StoreBody = z
  .strictObject({ leaveOut: z.boolean().default(false).describe('Store the rest although rows are refused.') })
  .meta({ id: 'StoreBody' })

export const TemplateFormat = z.enum(['csv', 'xlsx', 'json'])

export const TemplateParams = z.strictObject({ kind: ImportKind })

export const TemplateQuery = z.strictObject({
  format: TemplateFormat.default('xlsx'),
  filled: z.enum(['yes', 'no']).default('no').describe('yes: with all that is here.'),
  version: Uuid.optional().describe('Of standards: filled with this version alone.'),
})

export const ImportColumnsBody = ImportPlan.omit({ dates: true }).meta({ id: 'ImportColumnsAsked' })

export const ImportRowQuery = z.strictObject({ ...Page, outcome: RowOutcome.optional() })

export const SendImportQuery = z.strictObject({
  sheet: storableText(200).optional().describe('Of a workbook; left out: the first.'),
})

export type ImportKind = z.infer<typeof ImportKind>
export type ImportState = z.infer<typeof ImportState>
export type RowOutcome = z.infer<typeof RowOutcome>
export type DateAnswer = z.infer<typeof DateAnswer>
export type ImportCounts = z.infer<typeof Counts>
export type ImportQuestion = z.infer<typeof ImportQuestion>
export type Import = z.infer<typeof Import>
export type ImportColumns = z.infer<typeof ImportColumns>
export type ImportPlan = z.infer<typeof ImportPlan>
export type ImportRow = z.infer<typeof ImportRow>
