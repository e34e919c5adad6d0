import { createHash } from 'node:crypto'
import type { Context } from '../../context/context.ts'
import type { PlanBody } from '../../contract/plans/plans.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Actor } from '../../domain/access/actor.ts'
import {
  deleteOldPlans,
  insertPlan,
  lockContent,
  type PlanAsked,
  readLastPlan,
  type StoredPlan,
} from '../db/plans.db.ts'
import { changedSince } from './freshness.ts'
import type { PlanRuns } from './plan-runs.ts'
import { workOf } from './work-of.ts'

/** So long a plan is kept of which nothing was accepted. */
const KEPT_MS = 7 * 86_400_000

/**
 * Asks for a plan. What was asked for before, and is being worked out or still holds, is that plan.
 * Out: its id, and whether it is a new one.
 */
export async function askPlan(
  context: Context,
  runs: PlanRuns,
  actor: Actor,
  { kind, unitId, from, to, ...options }: PlanBody,
): Promise<{ id: string; isNew: boolean }> {
  const work = workOf(kind)
  await work.requireMay(context, actor, { unitId })
  const asked: PlanAsked = { kind, unitId, from, to, options }
  const content = createHash('sha256')
    .update(JSON.stringify([kind, unitId, from, to, sorted(options)]))
    .digest('hex')
  const last = await readLastPlan(context.db, content)
  if (last && (await stillHolds(context, actor, last))) return { id: last.id, isNew: false }
  const { id, isNew } = await inTransaction(context.db, async (tx) => {
    await lockContent(tx, content)
    const meanwhile = await readLastPlan(tx, content)
    if (meanwhile && meanwhile.id !== last?.id) return { id: meanwhile.id, isNew: false }
    await deleteOldPlans(tx, new Date(context.clock().getTime() - KEPT_MS))
    const of = { content, accountId: actor.accountId, at: context.clock() }
    return { id: await insertPlan(tx, asked, of), isNew: true }
  })
  if (isNew) runs.start(id, actor, asked)
  return { id, isNew }
}

const sorted = (options: object) => Object.entries(options).sort(([a], [b]) => (a < b ? -1 : 1))

async function stillHolds(context: Context, actor: Actor, plan: StoredPlan): Promise<boolean> {
  if (plan.state === 'waiting' || plan.state === 'solving') return plan.isBeating
  if (plan.state === 'failed' || plan.accepted.length > 0) return false
  return (await changedSince(context, actor, plan)).length === 0
}
