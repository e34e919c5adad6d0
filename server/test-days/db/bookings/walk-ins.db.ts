import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'

/** SQL that is true for the test days on which a soldier grades: with a slot of theirs, or somebody booked with them. */
export const gradedBy = (graderId: string, testDayId: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (EXISTS (SELECT FROM slot WHERE slot.test_day_id = ${testDayId} AND slot.grader_id = ${graderId}::uuid)
    OR EXISTS (SELECT FROM booking g WHERE g.test_day_id = ${testDayId} AND g.state <> 'cancelled'
      AND ${graderId}::uuid IN (g.grader_id, g.second_grader_id)))`

export async function gradesOnTestDay(tx: Transaction, graderId: string, testDayId: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`SELECT WHERE ${gradedBy(graderId, Prisma.sql`${testDayId}::uuid`)}`
  return rows.length > 0
}

/** The booking of a candidate for a standard on a test day that is not cancelled; null where there is none. */
export async function findSameBooking(
  tx: Transaction,
  { testDayId, candidateId, standardId }: { testDayId: string; candidateId: string; standardId: string },
): Promise<{ id: string; graderId: string | null } | null> {
  const rows = await tx.$queryRaw<{ id: string; graderId: string | null }[]>`
    SELECT id::text, grader_id::text AS "graderId" FROM booking
    WHERE test_day_id = ${testDayId}::uuid AND candidate_id = ${candidateId}::uuid
      AND standard_id = ${standardId}::uuid AND state <> 'cancelled'`
  return rows[0] ?? null
}
