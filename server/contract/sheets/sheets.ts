import { z } from 'zod'
import { Code, Day, Instant, Page, page, Reason, Text, Uuid, WrittenInstant } from '../common.ts'
import { Appeal } from './appeals.ts'
import { MarkedMajor, MarkedMinor, OutcomeOnly, VoidReason } from './marks.ts'

const Pause = z
  .strictObject({ from: WrittenInstant, to: WrittenInstant.nullable().default(null), note: Text.default('') })
  .meta({ id: 'Pause' })

const Acknowledgement = z.strictObject({ soldierId: Uuid, at: WrittenInstant }).meta({ id: 'Acknowledgement' })

export const Conditions = z
  .strictObject({ uniform: z.boolean(), equipment: z.boolean(), sponsorPresent: z.boolean() })
  .meta({ id: 'Conditions' })

/** A grade sheet as a device or a clerk sends it. What is left out of `conditions` was found in order. */
export const SheetBody = z
  .strictObject({
    purpose: z.enum(['test', 'practice']).default('test'),
    standard: Code,
    standardVersion: z.int().min(1).max(100_000),
    arm: Code.nullable(),
    candidateId: Uuid,
    sponsorId: Uuid.nullable().default(null),
    graderId: Uuid,
    testDayId: Uuid.nullable().default(null),
    secondOf: Uuid.nullable().default(null),
    startedAt: WrittenInstant,
    finishedAt: WrittenInstant,
    conditions: Conditions.default({ uniform: true, equipment: true, sponsorPresent: true }),
    majors: z.array(MarkedMajor).max(100).default([]),
    minors: z.array(MarkedMinor).max(500).default([]),
    pauses: z.array(Pause).max(100).default([]),
    void: VoidReason.nullable().default(null),
    outcomeOnly: OutcomeOnly.nullable().default(null),
    notes: Text.default(''),
    acknowledged: z.array(Acknowledgement).max(20).default([]),
    duplicateOf: Uuid.optional().describe(
      'The office sets this sheet aside: it is of the same test as that one, which stands. By amendment only; it then counts nowhere.',
    ),
  })
  .meta({ id: 'SheetBody' })

export type SheetBody = z.infer<typeof SheetBody>

const MinorResult = z
  .object({
    code: Code,
    outcome: z.enum(['GO', 'NO-GO', 'not tested']).nullable(),
    correct: z.int(),
    incorrect: z.int(),
    faults: z.array(z.object({ trial: z.int(), code: Code })),
  })
  .meta({ id: 'MinorResult' })

/** What a sheet comes to by rule 1, with the attempt it is in each certification. */
export const SheetResult = z
  .object({
    ending: z.enum(['completed', 'stopped', 'void', 'recorded', 'unfinished']),
    outcome: z.enum(['GO', 'NO-GO', 'VOID']).nullable(),
    minimum: z.int().nullable(),
    go: z.int(),
    noGo: z.int(),
    notTested: z.int().optional(),
    open: z.int().optional(),
    stillNeeded: z.int().optional(),
    reachable: z.boolean().optional(),
    minors: z.array(MinorResult),
    attempts: z.array(z.object({ certification: Code, number: z.int() })),
  })
  .meta({ id: 'SheetResult' })

export const RULES = [
  'grader-is-candidate',
  'sponsor-is-candidate',
  'grader-coached',
  'grader-not-qualified',
  'no-sponsor',
  'not-the-sponsor',
  'sponsor-not-certified',
  'conditions',
  'too-early',
  'review-missing',
  'out-of-sequence',
  'standard-not-in-force',
  'arm-not-allowed',
  'void-after-failure',
  'clock-skew',
] as const

/** A condition of rule 4 that a sheet breaks. */
export const Violation = z
  .object({ rule: z.enum(RULES), waivable: z.boolean(), detail: z.string() })
  .meta({ id: 'Violation' })

export const SheetState = z.enum(['counted', 'held', 'rejected'])

const ArrivedLate = z
  .boolean()
  .describe('It came in after a sheet of the same soldier with a later end, of another test that was not rejected.')

const Judged = { result: SheetResult, violations: z.array(Violation) }

/** Answer of `POST /api/sheets/score`; nothing was stored. */
export const ScoredSheet = z.object(Judged).meta({ id: 'ScoredSheet' })

/** Answer of `PUT /api/sheets/{uuid}` and of what changes a sheet. */
export const StoredSheet = z
  .object({ id: Uuid, state: SheetState, arrivedLate: ArrivedLate, ...Judged })
  .meta({ id: 'StoredSheet' })

const People = z.record(z.string(), z.string()).describe('Grade and name by soldier id, for the people on the sheet.')

const SheetRevision = z
  .object({
    number: z.int(),
    at: Instant,
    by: z.string(),
    reason: z.string().nullable(),
    body: SheetBody,
    result: SheetResult,
  })
  .meta({ id: 'SheetRevision' })

const SheetDecision = z
  .object({
    decision: z.enum(['count', 'reject']),
    reason: z.string(),
    at: Instant,
    by: z.string(),
    waived: z.array(z.string()),
  })
  .meta({ id: 'SheetDecision' })

/** A sheet as it stands now, with every revision and decision. `waived` and `flags` name rules; `flags` may hold `overlap`. */
export const SheetDetail = SheetBody.safeExtend({
  id: Uuid,
  state: SheetState,
  day: Day,
  receivedAt: Instant,
  arrivedLate: ArrivedLate,
  appealableUntil: Instant.describe('Candidate and sponsor can appeal until then.'),
  ...Judged,
  flags: z.array(z.string()),
  waived: z.array(z.string()),
  people: People,
  revisions: z.array(SheetRevision),
  decisions: z.array(SheetDecision),
  appeals: z.array(Appeal),
}).meta({ id: 'SheetDetail' })

/** One sheet in a list: the body in force, its result and how it stands. */
export const SheetSummary = z
  .object({
    id: Uuid,
    state: SheetState,
    day: Day,
    receivedAt: Instant,
    revision: z.int(),
    flags: z.array(z.string()),
    ...Judged,
    body: SheetBody,
    people: People,
  })
  .meta({ id: 'SheetSummary' })

export const SheetPage = page(SheetSummary)

export const SheetAmendment = z.strictObject({ reason: Reason, sheet: SheetBody }).meta({ id: 'SheetAmendment' })

export const SheetDecisionBody = z
  .strictObject({ decision: z.enum(['count', 'reject']), reason: Reason })
  .meta({ id: 'SheetDecisionBody' })

export const SheetQuery = z.strictObject({
  ...Page,
  soldierId: Uuid.optional().describe('Of this candidate.'),
  state: SheetState.optional(),
  purpose: z.enum(['test', 'practice']).optional(),
})

export type Conditions = z.infer<typeof Conditions>
export type SheetResult = z.infer<typeof SheetResult>
export type Violation = z.infer<typeof Violation>
export type StoredSheet = z.infer<typeof StoredSheet>
export type ScoredSheet = z.infer<typeof ScoredSheet>
export type SheetDetail = z.infer<typeof SheetDetail>
export type SheetSummary = z.infer<typeof SheetSummary>
export type SheetAmendment = z.infer<typeof SheetAmendment>
export type SheetDecisionBody = z.infer<typeof SheetDecisionBody>
