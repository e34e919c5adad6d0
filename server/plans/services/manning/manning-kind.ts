import { notAllowed, requireAction, requireUnitInScope } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { reachOf } from '../../../ceremonies/services/reach.ts'
import { changesOfManning } from '../../../domain/plans/manning/changes-of-manning.ts'
import { shortSets } from '../../../domain/plans/manning/short-sets.ts'
import type { PlanProblem } from '../../../domain/plans/problem.ts'
import type { PlanKindWork } from '../plan-kind.ts'
import { gatherManning } from './gather-manning.ts'

/** Manning: whoever plans the ceremonies of a unit. */
export const manningKind: PlanKindWork = {
  async requireMay(context, actor, { unitId }) {
    requireAction(actor, 'plan-ceremonies')
    const scope = await scopeFor(context, actor)
    await requireUnitInScope(context, scope, unitId)
    if ((await reachOf(context.db, actor, scope, unitId)) !== 'plan') throw notAllowed()
  },
  async state(context, _actor, scope, asked) {
    const problem = await gatherManning(context, scope, asked)
    return {
      problem,
      answer: ({ pairs }) => ({ pairs, unplaced: unplacedOf(problem, pairs), short: shortSets(problem, pairs) }),
    }
  },
  async changes(_context, plan, before, now, chosen) {
    return changesOfManning(before, now, chosen, plan.accepted)
  },
}

/** What nobody was found for, and whether nobody may stand there at all. */
function unplacedOf({ wanted, pairs }: PlanProblem, taken: readonly string[]) {
  const chosen = new Set(taken)
  const placed = new Set(pairs.filter(({ id }) => chosen.has(id)).map((pair) => pair.wanted))
  const possible = new Set(pairs.map((pair) => pair.wanted))
  return wanted
    .filter(({ id }) => !placed.has(id))
    .map(({ id }) => ({ wanted: id, reason: possible.has(id) ? 'too few soldiers' : 'nobody may stand there' }))
}
