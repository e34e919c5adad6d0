import '../../../api/no-run-time-code.ts'
import { z } from 'zod'
import { VoidReason } from '#contract/sheets/marks.ts'
import { SheetBody } from '#contract/sheets/sheets.ts'

const Person = z.object({ id: z.string(), text: z.string() })

const DraftMajor = z.object({
  mark: z.enum(['GO', 'NO-GO']).nullable(),
  /** As typed. */
  atCall: z.string(),
  faults: z.array(z.string()),
})

const DraftMinor = z.object({
  trials: z.array(z.enum(['correct', 'incorrect']).nullable()),
  faults: z.array(z.object({ trial: z.number(), code: z.string() })),
  readings: z.array(
    z.object({ trial: z.number(), gauge: z.string(), value: z.string(), override: z.string().nullable() }),
  ),
})

/** A sheet while it is typed in; kept on this device until the server has answered. */
export const Draft = z.object({
  /** The client's id: every try to send goes under it. */
  id: z.string(),
  /** Set while a stored sheet is amended; `id` is then the sheet's own. */
  amends: z.object({ body: SheetBody, reason: z.string() }).nullable(),
  purpose: z.enum(['test', 'practice']),
  /** Id of the version of a standard; '' before the standards are known. */
  standardId: z.string(),
  arm: z.string(),
  candidate: Person.nullable(),
  sponsor: Person.nullable(),
  grader: Person.nullable(),
  /** The first grader's sheet of the same attempt; '' on a sheet of its own. */
  secondOf: z.string().default(''),
  day: z.string(),
  /** Clock times as typed. */
  start: z.string(),
  finish: z.string(),
  conditions: z.object({ uniform: z.boolean(), equipment: z.boolean(), sponsorPresent: z.boolean() }),
  majors: z.record(z.string(), DraftMajor),
  minors: z.record(z.string(), DraftMinor),
  holds: z.enum(['marks', 'void', 'GO', 'NO-GO']),
  voidKind: VoidReason.shape.kind,
  voidText: z.string(),
  notes: z.string(),
})

export type Draft = z.infer<typeof Draft>
export type Person = z.infer<typeof Person>
export type DraftMajor = z.infer<typeof DraftMajor>
export type DraftMinor = z.infer<typeof DraftMinor>

export const BLANK_MAJOR: DraftMajor = { mark: null, atCall: '', faults: [] }
export const BLANK_MINOR: DraftMinor = { trials: [], faults: [], readings: [] }

/** What one sheet hands on to the next one of the same pile. */
export type Kept = Pick<Draft, 'standardId' | 'grader' | 'day' | 'arm'>

/** An empty sheet under a new id. */
export const newDraft = (id: string, kept: Kept): Draft => ({
  id,
  amends: null,
  purpose: 'test',
  candidate: null,
  sponsor: null,
  secondOf: '',
  start: '',
  finish: '',
  conditions: { uniform: true, equipment: true, sponsorPresent: true },
  majors: {},
  minors: {},
  holds: 'marks',
  voidKind: 'weather',
  voidText: '',
  notes: '',
  ...kept,
})

/** Has anything been entered that would be missed? */
export const hasContent = (draft: Draft): boolean =>
  draft.candidate !== null ||
  draft.sponsor !== null ||
  draft.start !== '' ||
  draft.finish !== '' ||
  draft.holds !== 'marks' ||
  draft.notes !== '' ||
  Object.values(draft.majors).some(({ mark }) => mark !== null) ||
  Object.values(draft.minors).some(({ trials }) => trials.some((mark) => mark !== null))
