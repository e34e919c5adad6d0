import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

/** Candidates with a counted attempt that no tally holds, by id, from behind one on. */
export async function findUncounted(tx: Transaction, after: string | null, limit: number): Promise<string[]> {
  const behind = after === null ? Prisma.empty : Prisma.sql`AND candidate_id > ${after}::uuid`
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT candidate_id::text AS id FROM sheet WHERE tallied_kind IS NULL AND state = 'counted'
      AND purpose = 'test' AND outcome <> 'VOID' AND second_of IS NULL ${behind}
    GROUP BY candidate_id ORDER BY candidate_id LIMIT ${limit}`
  return rows.map(({ id }) => id)
}
