import { z } from 'zod'
import { Code, Instant, PlainDate, Reason, Text, Uuid, Words, WrittenInstant } from '../common.ts'
import { MarkedMajor, MarkedMinor, OutcomeOnly, VoidReason } from '../sheets/marks.ts'
import { LeftKind } from '../soldiers/soldiers.ts'

/** The things a file holds, in the layout of the API with people by roster number. */

const RosterNumber = Words.describe('Roster number.')

/** By the clock on the wall, in the zone of the unit. */
const LocalMoment = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/)
  .refine((text) => PlainDate.safeParse(text.slice(0, 10)).success)
const Moment = z.union([LocalMoment, Instant], { error: 'Give a day and a time, as in 2026-03-02 09:30.' })

/** The same on a grade sheet, as a device may have written it down. */
const SheetMoment = z.union([LocalMoment, WrittenInstant], { error: 'Give a day and a time, as in 2026-03-02 09:30.' })

const Unit = { unit: Words.optional().describe('Name or path.'), unitId: Uuid.optional() }

export const RosterItem = z.strictObject({
  rosterNumber: RosterNumber,
  familyName: Words.optional(),
  givenName: Words.optional(),
  grade: Code.optional(),
  arms: z.array(Code).max(20).optional(),
  ...Unit,
  from: PlainDate,
  left: LeftKind.optional(),
  leftOn: PlainDate.optional(),
})

/** Days that must be in order are compared wherever both can be read, whatever else is wrong. */
const wherePlain =
  (...keys: string[]) =>
  ({ value }: z.core.ParsePayload): boolean =>
    keys.every((key) => PlainDate.safeParse((value as Record<string, unknown> | null)?.[key]).success)

export const AwardItem = z
  .strictObject({
    rosterNumber: RosterNumber,
    certification: Words,
    awardedOn: PlainDate,
    validThrough: PlainDate,
    evidence: Reason,
  })
  .refine((award) => award.awardedOn <= award.validThrough, {
    error: 'The award ends before it begins.',
    path: ['validThrough'],
    when: wherePlain('awardedOn', 'validThrough'),
  })

export const ResultItem = z.strictObject({
  candidate: RosterNumber,
  standard: Words,
  standardVersion: z.int().min(1).optional(),
  on: PlainDate,
  outcome: OutcomeOnly,
  grader: RosterNumber,
  sponsor: RosterNumber.nullish(),
  arm: Code.nullish(),
  notes: Text.default(''),
})

const inOrder = (period: { from: string; to?: string | null | undefined }) =>
  period.to == null || period.from <= period.to
const IN_ORDER = { error: 'The period ends before it begins.', path: ['to'], when: wherePlain('from', 'to') }

export const SponsorshipItem = z
  .strictObject({ candidate: RosterNumber, sponsor: RosterNumber, from: PlainDate, to: PlainDate.nullish() })
  .refine(inOrder, IN_ORDER)
  .refine(({ candidate, sponsor }) => candidate !== sponsor, {
    error: 'Nobody is their own sponsor; name another soldier.',
    path: ['sponsor'],
    when: ({ value }) => typeof (value as { candidate?: unknown } | null)?.candidate === 'string',
  })

export const AppointmentItem = z
  .strictObject({ rosterNumber: RosterNumber, standard: Words, from: PlainDate, to: PlainDate.nullish() })
  .refine(inOrder, IN_ORDER)

export const SheetItem = z.strictObject({
  id: Uuid.optional(),
  purpose: z.enum(['test', 'practice'], { error: 'The purpose is test or practice.' }).default('test'),
  standard: Words,
  standardVersion: z.int().min(1).max(100_000).optional(),
  arm: Code.nullish(),
  candidate: RosterNumber,
  sponsor: RosterNumber.nullish(),
  grader: RosterNumber,
  testDayId: Uuid.nullish(),
  secondOf: Uuid.nullish(),
  startedAt: SheetMoment,
  finishedAt: SheetMoment,
  conditions: z
    .strictObject({ uniform: z.boolean(), equipment: z.boolean(), sponsorPresent: z.boolean() })
    .default({ uniform: true, equipment: true, sponsorPresent: true }),
  majors: z.array(MarkedMajor).max(100).default([]),
  minors: z.array(MarkedMinor).max(500).default([]),
  pauses: z
    .array(z.strictObject({ from: SheetMoment, to: SheetMoment.nullable().default(null), note: Text.default('') }))
    .max(100)
    .default([]),
  void: VoidReason.nullish(),
  outcomeOnly: OutcomeOnly.nullish(),
  notes: Text.default(''),
  acknowledged: z
    .array(z.strictObject({ rosterNumber: RosterNumber, at: SheetMoment }))
    .max(20)
    .default([]),
})

const PostItem = z.strictObject({
  title: Words,
  row: z.int().min(1).max(50),
  place: z.int().min(1).max(100),
  certification: Words,
  arm: Code.nullish(),
  grades: z.array(Code).max(100).nullish(),
  minHeightCm: z.int().min(100).max(250).nullish(),
  maxHeightCm: z.int().min(100).max(250).nullish(),
  rosterNumber: RosterNumber.nullish(),
})

export const CeremonyItem = z.strictObject({
  title: Words,
  place: Text.default(''),
  ...Unit,
  startsAt: Moment,
  endsAt: Moment,
  notes: Text.default(''),
  posts: z.array(PostItem).min(1).max(400),
})

export type RosterItem = z.infer<typeof RosterItem>
export type AwardItem = z.infer<typeof AwardItem>
export type ResultItem = z.infer<typeof ResultItem>
export type SponsorshipItem = z.infer<typeof SponsorshipItem>
export type AppointmentItem = z.infer<typeof AppointmentItem>
export type SheetItem = z.infer<typeof SheetItem>
export type CeremonyItem = z.infer<typeof CeremonyItem>
