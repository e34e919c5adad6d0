import type { Transaction } from '../../../db/client.ts'
import type { Engagement } from '../../../domain/booking/types.ts'

export interface PersonFacts {
  readonly id: string
  readonly absences: readonly { from: string; through: string | null }[]
  readonly engagements: readonly Engagement[]
}

/** What takes these people's days and time from a day on: absences, tests, grading, ceremonies. */
export async function readPersonFacts(tx: Transaction, ids: readonly string[], from: string): Promise<PersonFacts[]> {
  return tx.$queryRaw<PersonFacts[]>`
    WITH people AS (SELECT unnest(${[...ids]}::uuid[]) AS id),
    named AS (
      SELECT soldier_id AS id, ceremony_id FROM post WHERE soldier_id IN (SELECT id FROM people)
      UNION
      SELECT soldier_id, ceremony_id FROM alternate WHERE soldier_id IN (SELECT id FROM people)),
    taken AS (
      SELECT b.candidate_id AS id, 'test' AS kind, s.starts_at, s.ends_at, b.id AS booking_id
      FROM booking b JOIN slot s ON s.id = b.slot_id
      WHERE b.candidate_id IN (SELECT id FROM people) AND b.state IN ('booked', 'checked in')
      UNION ALL
      SELECT s.grader_id, 'grading', s.starts_at, s.ends_at, NULL FROM slot s
      WHERE s.grader_id IN (SELECT id FROM people)
        AND EXISTS (SELECT FROM booking b WHERE b.slot_id = s.id AND b.state <> 'cancelled')
      UNION ALL
      SELECT named.id, 'ceremony', duty.starts_at, duty.ends_at, NULL FROM named
      JOIN ceremony c ON c.id = named.ceremony_id AND c.cancelled_at IS NULL
      CROSS JOIN LATERAL (
        SELECT c.reports_at - c.minutes_before * interval '1 minute' AS starts_at,
          c.ends_at + c.minutes_after * interval '1 minute' AS ends_at
        UNION ALL
        SELECT r.starts_at - c.minutes_before * interval '1 minute', r.ends_at + c.minutes_after * interval '1 minute'
        FROM rehearsal r WHERE r.ceremony_id = c.id) duty)
    SELECT people.id::text,
      (SELECT COALESCE(json_agg(json_build_object('from', a.from_day, 'through', a.through_day)), '[]')
        FROM absence a WHERE a.soldier_id = people.id
          AND (a.through_day IS NULL OR a.through_day >= ${from}::date)) AS absences,
      (SELECT COALESCE(json_agg(json_build_object('kind', t.kind, 'bookingId', t.booking_id,
          'from', round(extract(epoch FROM t.starts_at) * 1000), 'to', round(extract(epoch FROM t.ends_at) * 1000))), '[]')
        FROM taken t WHERE t.id = people.id AND t.ends_at >= ${from}::date - interval '1 day') AS engagements
    FROM people`
}

export interface ComingBooking {
  readonly id: string
  readonly candidateId: string
  readonly testDayId: string
  readonly day: string
  readonly standard: string
  /** Still to be tested; else it was tested, or is over without a test. */
  readonly open: boolean
}

/**
 * Bookings of these candidates that are not cancelled: those still to come at an instant, before or after the day asked
 * about, and all from that day on.
 */
export async function readComingBookings(
  tx: Transaction,
  candidateIds: readonly string[],
  from: string,
  now: Date,
): Promise<ComingBooking[]> {
  return tx.$queryRaw<ComingBooking[]>`
    SELECT b.id::text, b.candidate_id::text AS "candidateId", b.test_day_id::text AS "testDayId",
      d.on_day::text AS day, s.code AS standard, b.state IN ('booked', 'checked in') AS open
    FROM booking b JOIN test_day d ON d.id = b.test_day_id JOIN standard s ON s.id = b.standard_id
    WHERE b.candidate_id = ANY(${[...candidateIds]}::uuid[]) AND b.state <> 'cancelled'
      AND (d.on_day >= ${from}::date OR d.on_day >= (${now}::timestamptz AT TIME ZONE 'UTC')::date)
    ORDER BY d.on_day, b.id`
}

/** By candidate their family and given name. */
export async function readNames(tx: Transaction, ids: readonly string[]): Promise<Map<string, string>> {
  const rows = await tx.$queryRaw<{ id: string; name: string }[]>`
    SELECT id::text, family_name || ', ' || given_name AS name FROM soldier WHERE id = ANY(${[...ids]}::uuid[])`
  return new Map(rows.map(({ id, name }) => [id, name]))
}

/** Everybody who ever sponsored one of these candidates. */
export async function readSponsorIds(tx: Transaction, candidateIds: readonly string[]): Promise<string[]> {
  const rows = await tx.sponsorship.findMany({
    where: { candidateId: { in: [...candidateIds] } },
    select: { sponsorId: true },
    distinct: ['sponsorId'],
  })
  return rows.map(({ sponsorId }) => sponsorId)
}
