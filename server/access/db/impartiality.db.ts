import type { Transaction } from '../../db/client.ts'

/**
 * Which of these soldiers a person is not impartial toward: the person themselves, and whom they coach or did coach since
 * the candidate's last award (ever, where there is none).
 */
export async function findPartialTo(
  tx: Transaction,
  personId: string,
  soldierIds: readonly string[],
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT DISTINCT asked.id::text FROM unnest(${[...soldierIds]}::uuid[]) AS asked(id)
    WHERE asked.id = ${personId}::uuid OR EXISTS (
      SELECT FROM sponsorship WHERE candidate_id = asked.id AND sponsor_id = ${personId}::uuid
      AND (to_day IS NULL OR to_day > COALESCE((SELECT max(awarded_on) FROM (
        SELECT awarded_on FROM earned_award WHERE soldier_id = asked.id
        UNION ALL SELECT awarded_on FROM carried_award WHERE soldier_id = asked.id) awards), '-infinity')))`
  return rows.map(({ id }) => id)
}
