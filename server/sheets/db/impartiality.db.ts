import type { Transaction } from '../../db/client.ts'

/**
 * Whether a person coaches a candidate or did so since the candidate's last award (ever, where there is none), or is the
 * candidate.
 */
export async function isPartial(tx: Transaction, personId: string, candidateId: string): Promise<boolean> {
  if (personId === candidateId) return true
  const [row] = await tx.$queryRaw<[{ partial: boolean }]>`
    SELECT EXISTS (SELECT FROM sponsorship WHERE candidate_id = ${candidateId}::uuid AND sponsor_id = ${personId}::uuid
      AND (to_day IS NULL OR to_day > COALESCE((SELECT max(awarded_on) FROM (
        SELECT awarded_on FROM earned_award WHERE soldier_id = ${candidateId}::uuid
        UNION ALL SELECT awarded_on FROM carried_award WHERE soldier_id = ${candidateId}::uuid) awards), '-infinity'))) AS partial`
  return row.partial
}
