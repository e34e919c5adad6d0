import type { Transaction } from '../../db/client.ts'

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

/** Who grades a booking; null where there is no such booking, or nobody was named. */
export async function readBookingGrader(tx: Transaction, id: string): Promise<string | null> {
  const booking = await tx.booking.findUnique({ where: { id }, select: { graderId: true } })
  return booking?.graderId ?? null
}
