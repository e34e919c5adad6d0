import { z } from 'zod'
import { Code, Day, Instant, Page, PlainDate, page, Reason, storableText, Text, Uuid, Words } from '../common.ts'

const isTimeZone = (name: string): boolean => {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name })
    return /^[A-Za-z]/.test(name)
  } catch {
    return false
  }
}

export const TimeZone = z
  .string()
  .max(64)
  .refine(isTimeZone, { error: 'Give an IANA time zone such as Europe/Berlin.' })

export const UnitBody = z
  .strictObject({
    name: Words,
    kind: Code.describe('Its level: unit, company or platoon, or what the unit has named itself (`/api/unit-levels`).'),
    parentId: Uuid.nullable().default(null),
    timeZone: TimeZone.nullable().default(null).describe('Null: as the unit above; at the top the zone of the server.'),
  })
  .meta({ id: 'UnitBody' })

export const UnitChangeBody = z
  .strictObject({
    name: Words.optional(),
    kind: UnitBody.shape.kind.optional(),
    timeZone: TimeZone.nullable()
      .optional()
      .describe('Null: as the unit above. Days that are on record stay as they are.'),
    closedFrom: PlainDate.nullable()
      .optional()
      .describe('First day on which nobody is in it any more; null opens it again.'),
  })
  .refine((body) => Object.keys(body).length > 0, { error: 'Say what changes: name, kind, timeZone or closedFrom.' })
  .meta({ id: 'UnitChangeBody' })

export const Unit = UnitBody.safeExtend({
  id: Uuid,
  zone: z.string().describe('The time zone that holds in it, its own or from above.'),
  closedFrom: Day.nullable().describe('First day on which nobody is in it any more; null: open.'),
  place: z.int().describe('Among its sisters, those of the same place by name.'),
  continues: z.array(Uuid).describe('The units it goes on from, latest first: what it was before it moved.'),
}).meta({ id: 'Unit' })
export const UnitPage = page(Unit)

const Arms = z.array(Code).max(20)

export const SoldierBody = z
  .strictObject({
    rosterNumber: Words,
    familyName: Words,
    givenName: Words,
    grade: Code,
    arms: Arms.default([]),
    unitId: Uuid,
    from: PlainDate,
  })
  .meta({ id: 'SoldierBody' })

export const LeftKind = z.enum(['transferred', 'separated', 'other'])

const CHANGE = {
  from: PlainDate,
  grade: Code.optional(),
  arms: Arms.optional(),
  unitId: Uuid.optional(),
  left: LeftKind.optional(),
}
type Change = { grade?: unknown; arms?: unknown; unitId?: unknown; left?: unknown }
const saysSomething = (change: Change) => Boolean(change.grade ?? change.arms ?? change.unitId ?? change.left)
const SAYS_SOMETHING = { error: 'Say what changes: grade, arms, unitId or left.' }
const leavesOrJoins = (change: Change) => !(change.left && change.unitId)
const LEAVES_OR_JOINS = { error: 'One change cannot both leave and join a unit.', path: ['unitId'] }

/** A change from a day on; what is left out stays as it was. `left` ends the strength, a later change of unit begins it anew. */
export const SoldierChangeBody = z
  .strictObject(CHANGE)
  .refine(saysSomething, SAYS_SOMETHING)
  .refine(leavesOrJoins, LEAVES_OR_JOINS)
  .meta({ id: 'SoldierChangeBody' })

/** What an entered change should have said, all of it, and why it is corrected. */
export const ChangeCorrectionBody = z
  .strictObject({ ...CHANGE, reason: Reason })
  .refine(saysSomething, SAYS_SOMETHING)
  .refine(leavesOrJoins, LEAVES_OR_JOINS)
  .meta({ id: 'ChangeCorrectionBody' })

/** A change as it was entered; null: as before. */
export const SoldierChange = z
  .object({
    id: z.int(),
    from: Day,
    grade: z.string().nullable(),
    arms: z.array(Code).nullable(),
    unitId: Uuid.nullable(),
    left: LeftKind.nullable(),
  })
  .meta({ id: 'SoldierChange' })
export const SoldierChangePage = page(SoldierChange)

/** Number and names as they should have been entered, and why they are corrected. */
export const NamesBody = z
  .strictObject({ rosterNumber: Words, familyName: Words, givenName: Words, reason: Reason })
  .meta({ id: 'NamesBody' })

export const ReasonBody = z.strictObject({ reason: Reason }).meta({ id: 'ReasonBody' })

/** A soldier as of a day; `unitId` is null on days outside the strength. */
export const Soldier = z
  .object({
    id: Uuid,
    rosterNumber: z.string(),
    familyName: z.string(),
    givenName: z.string(),
    grade: z.string(),
    arms: z.array(Code),
    unitId: Uuid.nullable(),
    joined: PlainDate,
    left: z.object({ on: PlainDate, kind: LeftKind }).nullable(),
  })
  .meta({ id: 'Soldier' })

export const SoldierPage = page(Soldier)
export const SoldierCount = z.object({ count: z.int() }).meta({ id: 'SoldierCount' })

const SoldierPeriod = z
  .object({ from: Day, through: Day.nullable(), grade: z.string(), arms: z.array(Code), unitId: Uuid })
  .meta({ id: 'SoldierPeriod' })

const Sponsorship = z.object({
  id: Uuid,
  sponsorId: Uuid,
  sponsorName: z.string(),
  from: PlainDate,
  to: PlainDate.nullable(),
})
const Coaching = z.object({
  id: Uuid,
  candidateId: Uuid,
  candidateName: z.string(),
  from: PlainDate,
  to: PlainDate.nullable(),
})
const CarriedAward = z.object({
  id: Uuid,
  certification: Code,
  awardedOn: PlainDate,
  validThrough: PlainDate,
  evidence: z.string(),
})

/** Everything about one soldier that is not on a sheet. */
export const SoldierDetail = Soldier.safeExtend({
  removedAt: Instant.nullable().describe('When the personal data was removed; null: it was not.'),
  periods: z.array(SoldierPeriod),
  sponsors: z.array(Sponsorship),
  candidates: z.array(Coaching),
  appointments: z.array(z.object({ id: Uuid, standard: Code, from: PlainDate, to: PlainDate.nullable() })),
  reviews: z.array(z.object({ id: Uuid, standard: Code, on: PlainDate, note: z.string() })),
  withdrawals: z.array(z.object({ id: Uuid, certification: Code, on: PlainDate, reason: z.string() })),
  awards: z.array(CarriedAward),
  suspensions: z.array(
    z.object({
      id: Uuid,
      certification: Code,
      from: PlainDate,
      reason: z.string(),
      lift: PlainDate.nullable(),
      liftReason: z.string().nullable(),
    }),
  ),
}).meta({ id: 'SoldierDetail' })

const inOrder = (period: { from: string; to: string | null }) => period.to === null || period.from <= period.to
const IN_ORDER = { error: 'The period ends before it begins: mend from or to.', path: ['to'] }

export const SponsorshipBody = z
  .strictObject({ sponsorId: Uuid, from: PlainDate, to: PlainDate.nullable().default(null) })
  .refine(inOrder, IN_ORDER)
  .meta({ id: 'SponsorshipBody' })

export const SponsorshipEndBody = z
  .strictObject({ on: PlainDate.describe('The last day of it.') })
  .meta({ id: 'SponsorshipEndBody' })

export const AppointmentBody = z
  .strictObject({ standard: Code, from: PlainDate, to: PlainDate.nullable().default(null) })
  .refine(inOrder, IN_ORDER)
  .meta({ id: 'AppointmentBody' })

export const ReviewBody = z
  .strictObject({ standard: Code, on: PlainDate, note: Text.default('') })
  .meta({ id: 'ReviewBody' })

export const WithdrawalBody = z
  .strictObject({ certification: Code, on: PlainDate, reason: Reason })
  .meta({ id: 'WithdrawalBody' })

export const AwardBody = z
  .strictObject({ certification: Code, awardedOn: PlainDate, validThrough: PlainDate, evidence: Reason })
  .refine((award) => award.awardedOn <= award.validThrough, {
    error: 'The award ends before it begins: mend awardedOn or validThrough.',
    path: ['validThrough'],
  })
  .meta({ id: 'AwardBody' })

export const SuspensionBody = z
  .strictObject({ soldierId: Uuid, certification: Code, from: PlainDate, reason: Reason })
  .meta({ id: 'SuspensionBody' })

export const LiftBody = z.strictObject({ on: PlainDate, reason: Reason }).meta({ id: 'LiftBody' })

export const ChangeParams = z.strictObject({
  id: Uuid,
  change: z.coerce.number<number>().int().min(1).max(Number.MAX_SAFE_INTEGER),
})

export const SponsorshipParams = z.strictObject({ id: Uuid, sponsorship: Uuid })

const Roster = {
  asOf: PlainDate.optional(),
  unitId: Uuid.optional().describe('Only the strength of this unit and those below it.'),
  q: storableText(100).optional().describe('Parts of roster number, name or grade.'),
  grade: Code.optional(),
  arm: Code.optional().describe('Only those who carry this arm that day.'),
  strength: z.enum(['serving', 'absent', 'left']).optional().describe('Of the strength that day, absent, or left.'),
}

export const SoldierQuery = z.strictObject({ ...Page, ...Roster })

export const SoldierCountQuery = z.strictObject(Roster)

export const RosterFileQuery = z.strictObject({
  asOf: z
    .union([PlainDate, z.literal('tomorrow')])
    .optional()
    .describe('Left out: today, and tomorrow the day after it, by the clock of the unit.'),
  unitId: Roster.unitId,
})

export const AsOfQuery = z.strictObject({ asOf: PlainDate.optional() })

export const StatusQuery = z.strictObject({ ...Page, asOf: PlainDate.optional() })

export type UnitBody = z.infer<typeof UnitBody>
export type UnitChangeBody = z.infer<typeof UnitChangeBody>
export type Unit = z.infer<typeof Unit>
export type SoldierBody = z.infer<typeof SoldierBody>
export type SoldierChangeBody = z.infer<typeof SoldierChangeBody>
export type ChangeCorrectionBody = z.infer<typeof ChangeCorrectionBody>
export type SoldierChange = z.infer<typeof SoldierChange>
export type NamesBody = z.infer<typeof NamesBody>
export type ReasonBody = z.infer<typeof ReasonBody>
export type Soldier = z.infer<typeof Soldier>
export type SoldierDetail = z.infer<typeof SoldierDetail>
export type SponsorshipBody = z.infer<typeof SponsorshipBody>
export type SponsorshipEndBody = z.infer<typeof SponsorshipEndBody>
export type AppointmentBody = z.infer<typeof AppointmentBody>
export type ReviewBody = z.infer<typeof ReviewBody>
export type WithdrawalBody = z.infer<typeof WithdrawalBody>
export type AwardBody = z.infer<typeof AwardBody>
export type SuspensionBody = z.infer<typeof SuspensionBody>
export type LiftBody = z.infer<typeof LiftBody>
