import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

/**
 * Brings a candidate's bookings for a standard in line with the sheets of that day: a test that took place makes its
 * booking tested, with the sheet. A sheet belongs to the booking of its test day; one that names no test day, to that of
 * its day. Void sheets are no test: whose only sheet is void, or moved elsewhere by an amendment, was there and is still to
 * be tested.
 */
export async function settleBookings(tx: Transaction, candidateId: string, standardId: string): Promise<void> {
  await tx.$executeRaw`
    UPDATE booking b SET sheet_id = now.sheet_id,
      state = CASE WHEN now.sheet_id IS NOT NULL THEN 'tested' ELSE 'checked in' END,
      state_reason = CASE WHEN now.sheet_id IS NULL THEN 'The test was void or its sheet was moved.' END
    FROM (
      SELECT own.id, (
        SELECT s.id FROM sheet s
        WHERE s.candidate_id = own.candidate_id AND s.standard_id = own.standard_id AND s.purpose = 'test'
          AND s.second_of IS NULL AND s.ending <> 'void'
          AND (s.test_day_id = own.test_day_id OR (s.test_day_id IS NULL AND s.day = d.on_day))
        ORDER BY s.test_day_id IS NULL, s.finished_at DESC, s.id LIMIT 1) AS sheet_id
      FROM booking own JOIN test_day d ON d.id = own.test_day_id
      WHERE own.candidate_id = ${candidateId}::uuid AND own.standard_id = ${standardId}::uuid
        AND own.state <> 'cancelled') now
    WHERE b.id = now.id AND b.sheet_id IS DISTINCT FROM now.sheet_id`
}

export interface AheadBooking {
  readonly id: string
  readonly testDayId: string
  readonly day: string
  readonly candidateId: string
  readonly standard: string
  readonly graderId: string | null
  readonly secondGraderId: string | null
  readonly slotId: string | null
  readonly startsAt: Date | null
  readonly state: 'booked' | 'cancelled'
  /** The GO that ended it by itself; null: it is booked. */
  readonly endedById: string | null
}

/** SQL that is true for a booking `b`, on the test day `d`, whose time has not come: booked or ended by a GO, on a day that takes place. */
export const isAhead = (now: Date): Prisma.Sql => Prisma.sql`d.called_off_at IS NULL
  AND (b.state = 'booked' OR b.state = 'cancelled' AND b.ended_by_id IS NOT NULL)
  AND COALESCE(b.starts_at > ${now}, d.on_day >= (${now}::timestamptz AT TIME ZONE 'UTC')::date)`

/**
 * The bookings of these candidates whose time has not come at an instant: booked, or ended by a GO, on days that take
 * place. Locked until the transaction ends.
 */
export async function lockBookingsAhead(
  tx: Transaction,
  candidateIds: readonly string[],
  now: Date,
): Promise<AheadBooking[]> {
  return tx.$queryRaw<AheadBooking[]>`
    SELECT b.id::text, b.test_day_id::text AS "testDayId", d.on_day::text AS day, b.candidate_id::text AS "candidateId",
      s.code AS standard, b.grader_id::text AS "graderId", b.second_grader_id::text AS "secondGraderId",
      b.slot_id::text AS "slotId", b.starts_at AS "startsAt", b.state, b.ended_by_id::text AS "endedById"
    FROM booking b JOIN test_day d ON d.id = b.test_day_id JOIN standard s ON s.id = b.standard_id
    WHERE b.candidate_id = ANY(${[...candidateIds]}::uuid[]) AND ${isAhead(now)}
    ORDER BY d.on_day, b.id FOR UPDATE OF b`
}

/** What becomes of a booking that ends by itself, or stands again. */
interface Ending {
  readonly state: 'booked' | 'cancelled'
  readonly stateReason: string | null
  readonly endedById: string | null
  readonly slotId: string | null
  readonly graderId: string | null
  readonly startsAt: Date | null
}

export async function setEnding(tx: Transaction, bookingId: string, ending: Partial<Ending>): Promise<void> {
  await tx.booking.update({ where: { id: bookingId }, data: ending })
}

/** Whether nobody else is booked in a booking's slot by now, and its candidate nowhere else at that time. */
export async function slotStillOpen(tx: Transaction, bookingId: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    SELECT FROM booking b JOIN slot s ON s.id = b.slot_id WHERE b.id = ${bookingId}::uuid AND NOT EXISTS (
      SELECT FROM booking o JOIN slot t ON t.id = o.slot_id
      WHERE o.id <> b.id AND (o.slot_id = s.id AND o.state <> 'cancelled' OR o.candidate_id = b.candidate_id
        AND o.state IN ('booked', 'checked in') AND t.starts_at < s.ends_at AND s.starts_at < t.ends_at))
    FOR UPDATE OF s`
  return rows.length > 0
}
