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

/** Keeps who is named by a plan and not taken off again, in place of what was kept. */
export async function storePlanNames(tx: Transaction, planId: string, names: readonly PlanName[]): Promise<void> {
  await tx.$executeRaw`
    UPDATE plan SET answer = jsonb_set(answer, '{named}', ${JSON.stringify(names)}::jsonb) WHERE id = ${planId}::uuid`
}

export async function listPlanNames(tx: Transaction, planId: string): Promise<PlanName[]> {
  const rows = await tx.$queryRaw<{ names: PlanName[] | null }[]>`
    SELECT answer -> 'named' AS names FROM plan WHERE id = ${planId}::uuid`
  return rows[0]?.names ?? []
}
