import type { PlanBody } from '../../contract/plans/plans.ts'
import { invalid } from '../../errors.ts'
import type { PlanKindWork } from './plan-kind.ts'
import { retestKind } from './retests/retest-kind.ts'

const WORK: Partial<Record<PlanBody['kind'], PlanKindWork>> = { retests: retestKind }

/** How a kind of plan is done. */
export function workOf(kind: PlanBody['kind']): PlanKindWork {
  const work = WORK[kind]
  if (!work) throw invalid('unknown-kind', '/kind', 'Plans of this kind are not made yet; ask for "retests".')
  return work
}
