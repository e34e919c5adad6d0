import type {
  AppointmentBody,
  AwardBody,
  LiftBody,
  ReviewBody,
  SponsorshipBody,
  SuspensionBody,
  WithdrawalBody,
} from '../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate, toDateOrNull } from '../../db/dates.ts'

const ONLY_ID = { select: { id: true } } as const

export async function insertSponsorship(tx: Transaction, candidateId: string, body: SponsorshipBody): Promise<string> {
  const data = { candidateId, sponsorId: body.sponsorId, fromDay: toDate(body.from), toDay: toDateOrNull(body.to) }
  return (await tx.sponsorship.create({ data, ...ONLY_ID })).id
}

/** A sponsorship of the candidate; null where there is none of this id. */
export async function readSponsorship(
  tx: Transaction,
  candidateId: string,
  id: string,
): Promise<{ sponsorId: string; from: string; to: string | null } | null> {
  const rows = await tx.$queryRaw<{ sponsorId: string; from: string; to: string | null }[]>`
    SELECT sponsor_id::text AS "sponsorId", from_day::text AS "from", to_day::text AS "to"
    FROM sponsorship WHERE id = ${id}::uuid AND candidate_id = ${candidateId}::uuid`
  return rows[0] ?? null
}

export async function endSponsorship(tx: Transaction, id: string, on: string): Promise<void> {
  await tx.sponsorship.update({ where: { id }, data: { toDay: toDate(on) } })
}

export async function insertAppointment(tx: Transaction, soldierId: string, body: AppointmentBody): Promise<string> {
  const data = { soldierId, standard: body.standard, fromDay: toDate(body.from), toDay: toDateOrNull(body.to) }
  return (await tx.appointment.create({ data, ...ONLY_ID })).id
}

export async function insertReview(tx: Transaction, soldierId: string, body: ReviewBody): Promise<string> {
  const data = { soldierId, standard: body.standard, onDay: toDate(body.on), note: body.note }
  return (await tx.review.create({ data, ...ONLY_ID })).id
}

export async function insertWithdrawal(
  tx: Transaction,
  soldierId: string,
  certificationId: string,
  body: WithdrawalBody,
): Promise<string> {
  const data = { soldierId, certificationId, onDay: toDate(body.on), reason: body.reason }
  return (await tx.withdrawal.create({ data, ...ONLY_ID })).id
}

export async function insertCarriedAward(
  tx: Transaction,
  soldierId: string,
  certificationId: string,
  body: AwardBody,
): Promise<string> {
  const days = { awardedOn: toDate(body.awardedOn), validThrough: toDate(body.validThrough) }
  const data = { soldierId, certificationId, ...days, evidence: body.evidence }
  return (await tx.carriedAward.create({ data, ...ONLY_ID })).id
}

export async function insertSuspension(
  tx: Transaction,
  certificationId: string,
  body: SuspensionBody,
): Promise<string> {
  const data = { soldierId: body.soldierId, certificationId, fromDay: toDate(body.from), reason: body.reason }
  return (await tx.suspension.create({ data, ...ONLY_ID })).id
}

export interface StoredSuspension {
  readonly soldierId: string
  readonly from: string
  readonly lift: string | null
}

/** Locks the soldier of a suspension, then reads it; null where there is none. */
export async function lockSuspension(tx: Transaction, id: string): Promise<StoredSuspension | null> {
  await tx.$queryRaw`
    SELECT person.id FROM soldier person JOIN suspension x ON x.soldier_id = person.id WHERE x.id = ${id}::uuid
    FOR NO KEY UPDATE OF person`
  const rows = await tx.$queryRaw<StoredSuspension[]>`
    SELECT soldier_id::text AS "soldierId", from_day::text AS "from", lift_day::text AS lift
    FROM suspension WHERE id = ${id}::uuid`
  return rows[0] ?? null
}

export async function liftSuspension(tx: Transaction, id: string, body: LiftBody): Promise<void> {
  await tx.suspension.update({ where: { id }, data: { liftDay: toDate(body.on), liftReason: body.reason } })
}

/** Candidates whose sheets of a standard this person graded on or after a day. */
export async function findGradedCandidates(
  tx: Transaction,
  graderId: string,
  standard: string,
  fromDay: string,
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT DISTINCT s.candidate_id::text AS id FROM sheet s JOIN standard st ON st.id = s.standard_id
    WHERE s.grader_id = ${graderId}::uuid AND st.code = ${standard} AND s.day >= ${fromDay}::date
      AND s.purpose = 'test' ORDER BY 1`
  return rows.map(({ id }) => id)
}
