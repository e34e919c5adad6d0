import { soldierInScope } from '../../../access/db/scope.db.ts'
import type { Conditions } from '../../../contract/sheets/sheets.ts'
import type { Booking, BookingState } from '../../../contract/test-days/test-days.ts'
import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'
import type { Scope } from '../../../domain/access/scope.ts'

export interface NewBooking {
  readonly testDayId: string
  readonly candidateId: string
  readonly standardId: string
  readonly slotId: string | null
  readonly graderId: string | null
  readonly startsAt: Date | null
  /** Given by the device that made it; left out: a new one. */
  readonly id?: string
  readonly state?: BookingState
  readonly checkIn?: Conditions
}

export async function insertBooking(tx: Transaction, booking: NewBooking): Promise<string> {
  const { id } = await tx.booking.create({ data: booking, select: { id: true } })
  return id
}

export async function testDayExists(tx: Transaction, id: string): Promise<boolean> {
  return (await tx.testDay.count({ where: { id } })) > 0
}

export interface BookingFilter {
  readonly testDayId?: string | undefined
  readonly candidateId?: string | undefined
  /** First day. */
  readonly from?: string | undefined
  /** Undefined: all but cancelled ones. */
  readonly state?: BookingState | 'all' | undefined
}

/** SQL: the booking that a cancelled one `b` gave way to: named when its day was called off, else the next one made since. */
const INSTEAD = Prisma.sql`(
  SELECT json_build_object('bookingId', n.id, 'testDayId', nd.id, 'on', nd.on_day, 'place', nd.place, 'state', n.state,
    'startsAt', to_char(n.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')) AS "to"
  FROM booking n JOIN test_day nd ON nd.id = n.test_day_id
  WHERE b.state = 'cancelled' AND (n.id = b.moved_to_id OR n.candidate_id = b.candidate_id
    AND n.standard_id = b.standard_id AND n.id <> b.id AND n.state <> 'cancelled' AND nd.on_day >= d.on_day)
  ORDER BY n.state = 'cancelled', n.id = b.moved_to_id DESC, nd.on_day, n.id LIMIT 1)`

/** A page of bookings of candidates in scope, in order of day. */
export async function listBookings(
  tx: Transaction,
  scope: Scope,
  { testDayId, candidateId, from, state }: BookingFilter,
  page: { limit: number; after: { on: string; id: string } | null },
): Promise<Booking[]> {
  const conditions = [soldierInScope(scope, Prisma.sql`b.candidate_id`)]
  if (testDayId) conditions.push(Prisma.sql`b.test_day_id = ${testDayId}::uuid`)
  if (candidateId) conditions.push(Prisma.sql`b.candidate_id = ${candidateId}::uuid`)
  if (from) conditions.push(Prisma.sql`d.on_day >= ${from}::date`)
  if (state === undefined) conditions.push(Prisma.sql`b.state <> 'cancelled'`)
  else if (state !== 'all') conditions.push(Prisma.sql`b.state = ${state}`)
  if (page.after) conditions.push(Prisma.sql`(d.on_day, b.id) > (${page.after.on}::date, ${page.after.id}::uuid)`)
  return tx.$queryRaw<Booking[]>`
    SELECT b.id::text, d.id::text AS "testDayId", d.on_day::text AS "on", d.place, b.candidate_id::text AS "candidateId",
      c.family_name || ', ' || c.given_name AS "candidateName", s.code AS standard, b.grader_id::text AS "graderId",
      g.family_name || ', ' || g.given_name AS "graderName",
      to_char(b.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
      to_char(slot.ends_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "endsAt", b.slot_id::text AS "slotId",
      b.second_grader_id::text AS "secondGraderId", g2.family_name || ', ' || g2.given_name AS "secondGraderName",
      b.state, b.state_reason AS "stateReason", b.check_in AS "checkIn",
      b.sheet_id::text AS "sheetId", moved.to AS "movedTo"
    FROM booking b JOIN test_day d ON d.id = b.test_day_id JOIN soldier c ON c.id = b.candidate_id
    JOIN standard s ON s.id = b.standard_id LEFT JOIN soldier g ON g.id = b.grader_id LEFT JOIN slot ON slot.id = b.slot_id
    LEFT JOIN soldier g2 ON g2.id = b.second_grader_id LEFT JOIN LATERAL ${INSTEAD} moved ON true
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY d.on_day, b.id LIMIT ${page.limit}`
}

export interface LockedBooking {
  readonly id: string
  readonly testDayId: string
  readonly day: string
  readonly candidateId: string
  readonly standard: string
  readonly standardId: string
  readonly graderId: string | null
  readonly secondGraderId: string | null
  readonly slotId: string | null
  readonly startsAt: Date | null
  readonly state: BookingState
  readonly checkIn: Conditions | null
  readonly sheetId: string | null
}

const LOCKED = Prisma.sql`
  SELECT b.id::text, b.test_day_id::text AS "testDayId", d.on_day::text AS day, b.candidate_id::text AS "candidateId",
    s.code AS standard, b.standard_id::text AS "standardId", b.grader_id::text AS "graderId",
    b.second_grader_id::text AS "secondGraderId", b.slot_id::text AS "slotId", b.starts_at AS "startsAt", b.state, b.check_in AS "checkIn",
    b.sheet_id::text AS "sheetId"
  FROM booking b JOIN test_day d ON d.id = b.test_day_id JOIN standard s ON s.id = b.standard_id`

/** One booking, locked until the transaction ends; null where there is none. */
export async function lockBooking(tx: Transaction, id: string): Promise<LockedBooking | null> {
  const rows = await tx.$queryRaw<LockedBooking[]>`${LOCKED} WHERE b.id = ${id}::uuid FOR UPDATE OF b`
  return rows[0] ?? null
}

/** The bookings of a day that are neither over nor cancelled, locked until the transaction ends. */
export async function lockOpenBookings(tx: Transaction, testDayId: string): Promise<LockedBooking[]> {
  return tx.$queryRaw<LockedBooking[]>`${LOCKED}
    WHERE b.test_day_id = ${testDayId}::uuid AND b.state IN ('booked', 'checked in')
    ORDER BY b.starts_at NULLS LAST, b.id FOR UPDATE OF b`
}

export async function updateBooking(
  tx: Transaction,
  id: string,
  {
    checkIn,
    ...change
  }: Partial<Omit<NewBooking, 'candidateId' | 'standardId' | 'id' | 'checkIn'>> & {
    stateReason?: string | null
    movedToId?: string
    checkIn?: Conditions | null
  },
): Promise<void> {
  const found = checkIn === undefined ? {} : { checkIn: checkIn ?? Prisma.DbNull }
  await tx.booking.update({ where: { id }, data: { ...change, ...found } })
}
