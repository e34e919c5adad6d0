import { requireAction, requireUnitInScope } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { changesBetween } from '../../../domain/plans/retests/changes.ts'
import { bestChange, unplacedOf } from '../../../domain/plans/retests/unplaced.ts'
import type { PlanKindWork } from '../plan-kind.ts'
import { formatChanges } from './format-changes.ts'
import { gatherRetests } from './gather-retests.ts'

/** Retests: the training office plans them, of units in scope. */
export const retestKind: PlanKindWork = {
  async requireMay(context, actor, { unitId }) {
    requireAction(actor, 'plan-test-days')
    await requireUnitInScope(context, await scopeFor(context, actor), unitId)
  },
  async state(context, actor, scope, asked) {
    const { problem, tests } = await gatherRetests(context, actor, scope, asked)
    return {
      problem,
      answer: ({ pairs }) => ({
        pairs,
        unplaced: unplacedOf(problem, pairs, tests).map((one) => ({ ...one })),
        short: [],
        bestChange: bestChange(problem, pairs, tests, asked.to),
      }),
    }
  },
  async changes(context, plan, before, now, chosen) {
    return formatChanges(context, plan, changesBetween(before, now, chosen, plan.accepted))
  },
}
