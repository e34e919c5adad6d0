import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { candidatesToGrade } from '../db/to-grade.db.ts'

/** Those whom this account is not about to grade: whoever judges a test is to know no forecast of it, whatever else they are. */
export async function withoutThoseToGrade(
  context: Context,
  actor: Actor,
  soldierIds: readonly string[],
): Promise<string[]> {
  if (actor.soldierId === null || soldierIds.length === 0) return [...soldierIds]
  const toGrade = new Set(await candidatesToGrade(context.db, actor.soldierId, soldierIds))
  return soldierIds.filter((id) => !toGrade.has(id))
}
