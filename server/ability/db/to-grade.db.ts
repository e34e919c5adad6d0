import type { Transaction } from '../../db/client.ts'

/** Those of these candidates whom a grader is booked to judge, first or second, and has not judged yet. */
export async function candidatesToGrade(
  tx: Transaction,
  graderId: string,
  candidateIds: readonly string[],
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT DISTINCT candidate_id::text AS id FROM booking WHERE candidate_id = ANY(${[...candidateIds]}::uuid[])
      AND ${graderId}::uuid IN (grader_id, second_grader_id) AND state IN ('booked', 'checked in')`
  return rows.map(({ id }) => id)
}
