import type { Transaction } from '../../db/client.ts'

export interface PlanBooking {
  readonly pair: string
  readonly bookingId: string
  readonly testDayId: string
  readonly slotId: string
  /** The slot it was moved from; null: a new booking. */
  readonly fromSlotId: string | null
}

/** Keeps what was booked by a plan, as it was left. */
export async function insertPlanBookings(
  tx: Transaction,
  planId: string,
  bookings: readonly PlanBooking[],
  at: Date,
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO plan_booking (plan_id, pair, booking_id, test_day_id, slot_id, from_slot_id, accepted_at)
    SELECT ${planId}::uuid, pair, "bookingId", "testDayId", "slotId", "fromSlotId", ${at}
    FROM json_to_recordset(${JSON.stringify(bookings)}::json)
      AS x(pair text, "bookingId" uuid, "testDayId" uuid, "slotId" uuid, "fromSlotId" uuid)
    ON CONFLICT (plan_id, booking_id) DO UPDATE SET pair = excluded.pair, test_day_id = excluded.test_day_id,
      slot_id = excluded.slot_id, from_slot_id = excluded.from_slot_id, accepted_at = excluded.accepted_at, undone_at = NULL`
}

/** What was booked by a plan and not undone. */
export async function listPlanBookings(tx: Transaction, planId: string): Promise<PlanBooking[]> {
  return tx.$queryRaw<PlanBooking[]>`
    SELECT pair, booking_id::text AS "bookingId", test_day_id::text AS "testDayId", slot_id::text AS "slotId",
      from_slot_id::text AS "fromSlotId"
    FROM plan_booking WHERE plan_id = ${planId}::uuid AND undone_at IS NULL ORDER BY booking_id`
}

export async function markUndone(
  tx: Transaction,
  planId: string,
  bookingIds: readonly string[],
  at: Date,
): Promise<void> {
  await tx.$executeRaw`
    UPDATE plan_booking SET undone_at = ${at}
    WHERE plan_id = ${planId}::uuid AND booking_id = ANY(${[...bookingIds]}::uuid[])`
}
