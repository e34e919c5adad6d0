import type { Booking, BookingBody } from '../contract/test-days.ts'
import type { Scope } from '../domain/access/scope.ts'
import type { Transaction } from './client.ts'
import { Prisma } from './generated/client.ts'
import { soldierInScope } from './scope.db.ts'

export async function insertBooking(
  tx: Transaction,
  testDayId: string,
  standardId: string,
  { candidateId, graderId, startsAt }: BookingBody,
): Promise<string> {
  const data = { testDayId, standardId, candidateId, graderId, startsAt: startsAt === null ? null : new Date(startsAt) }
  const { id } = await tx.booking.create({ data, select: { id: true } })
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
}

/** A page of bookings of candidates in scope, in order of day. */
export async function listBookings(
  tx: Transaction,
  scope: Scope,
  { testDayId, candidateId, from }: BookingFilter,
  page: { limit: number; after: { on: string; id: string } | null },
): Promise<Booking[]> {
  const conditions = [soldierInScope(scope, Prisma.sql`b.candidate_id`)]
  if (testDayId) conditions.push(Prisma.sql`b.test_day_id = ${testDayId}::uuid`)
  if (candidateId) conditions.push(Prisma.sql`b.candidate_id = ${candidateId}::uuid`)
  if (from) conditions.push(Prisma.sql`d.on_day >= ${from}::date`)
  if (page.after) conditions.push(Prisma.sql`(d.on_day, b.id) > (${page.after.on}::date, ${page.after.id}::uuid)`)
  return tx.$queryRaw<Booking[]>`
    SELECT b.id::text, d.id::text AS "testDayId", d.on_day::text AS "on", d.place, b.candidate_id::text AS "candidateId",
      c.family_name || ', ' || c.given_name AS "candidateName", s.code AS standard, b.grader_id::text AS "graderId",
      g.family_name || ', ' || g.given_name AS "graderName",
      to_char(b.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt"
    FROM booking b JOIN test_day d ON d.id = b.test_day_id JOIN soldier c ON c.id = b.candidate_id
    JOIN standard s ON s.id = b.standard_id LEFT JOIN soldier g ON g.id = b.grader_id
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY d.on_day, b.id LIMIT ${page.limit}`
}
