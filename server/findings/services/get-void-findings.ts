import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { VoidFindings, VoidQuery } from '../../contract/findings/voids.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { readVoidFindings } from '../db/findings-voids.db.ts'
import { findingsView } from './findings-view.ts'

/** Void tests of each grader, by name. They are few, so they come in one page. */
export async function getVoidFindings(context: Context, actor: Actor, query: VoidQuery): Promise<VoidFindings> {
  const { unitId, sponsorIds } = await findingsView(context, actor, query.unitId)
  const day = await today(context, unitId)
  return { items: await readVoidFindings(context.db, { ...query, unitId }, sponsorIds, day), next: null }
}
