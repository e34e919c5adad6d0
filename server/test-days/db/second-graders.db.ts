import type { Transaction } from '../../db/client.ts'

export interface BookedPeople {
  readonly candidateId: string
  readonly graderId: string | null
  readonly secondGraderId: string | null
}

/** The people of a booking, which stays as it is until the transaction ends; null where there is none. */
export async function readBookedPeople(tx: Transaction, bookingId: string): Promise<BookedPeople | null> {
  const rows = await tx.$queryRaw<BookedPeople[]>`
    SELECT candidate_id::text AS "candidateId", grader_id::text AS "graderId", second_grader_id::text AS "secondGraderId"
    FROM booking WHERE id = ${bookingId}::uuid FOR UPDATE`
  return rows[0] ?? null
}

export async function updateSecondGrader(tx: Transaction, bookingId: string, graderId: string | null): Promise<void> {
  await tx.booking.update({ where: { id: bookingId }, data: { secondGraderId: graderId } })
}
