import type { Context } from '../../context/context.ts'
import type { Basis } from '../../contract/findings/basis.ts'
import { readAttemptTotals, readNotCounted } from '../db/findings-basis.db.ts'
import type { FindingsFilter } from '../db/findings-filter.db.ts'

/** Confidence level of every interval of the findings. */
export const LEVEL = 0.95

/** How many attempts a filter holds, and what is left out. */
export async function getBasis(context: Context, filter: FindingsFilter): Promise<Basis> {
  const [totals, notCounted] = await Promise.all([
    readAttemptTotals(context.db, filter),
    readNotCounted(context.db, filter),
  ])
  return { level: LEVEL, ...totals, notCounted }
}
