import type { Transaction } from '../../db/client.ts'

/** Somebody named by a plan. */
export interface PlanName {
  readonly pair: string
  readonly ceremonyId: string
  /** Null: as an alternate. */
  readonly postId: string | null
  readonly soldierId: string
  /** Who was named before; null: nobody. */
  readonly before: string | null
}

/** Keeps who is named by a plan. */
export async function insertPlanNames(
  tx: Transaction,
  planId: string,
  names: readonly PlanName[],
  at: Date,
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO plan_name (plan_id, pair, ceremony_id, post_id, soldier_id, before_id, accepted_at)
    SELECT ${planId}::uuid, pair, "ceremonyId", "postId", "soldierId", before, ${at}
    FROM json_to_recordset(${JSON.stringify(names)}::json)
      AS x(pair text, "ceremonyId" uuid, "postId" uuid, "soldierId" uuid, before uuid)
    ON CONFLICT (plan_id, pair) DO UPDATE SET ceremony_id = excluded.ceremony_id, post_id = excluded.post_id,
      soldier_id = excluded.soldier_id, before_id = excluded.before_id, accepted_at = excluded.accepted_at, undone_at = NULL`
}

/** Who was named by a plan and not taken off again by undoing it. */
export async function listPlanNames(tx: Transaction, planId: string): Promise<PlanName[]> {
  return tx.$queryRaw<PlanName[]>`
    SELECT pair, ceremony_id::text AS "ceremonyId", post_id::text AS "postId", soldier_id::text AS "soldierId",
      before_id::text AS before
    FROM plan_name WHERE plan_id = ${planId}::uuid AND undone_at IS NULL ORDER BY pair`
}

export async function markNamesUndone(tx: Transaction, planId: string, at: Date): Promise<void> {
  await tx.$executeRaw`
    UPDATE plan_name SET undone_at = ${at} WHERE plan_id = ${planId}::uuid AND undone_at IS NULL`
}
