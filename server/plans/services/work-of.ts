import type { PlanBody } from '../../contract/plans/plans.ts'
import { manningKind } from './manning/manning-kind.ts'
import type { PlanKindWork } from './plan-kind.ts'
import { retestKind } from './retests/retest-kind.ts'

const WORK: Record<PlanBody['kind'], PlanKindWork> = { retests: retestKind, manning: manningKind }

/** How a kind of plan is done. */
export const workOf = (kind: PlanBody['kind']): PlanKindWork => WORK[kind]
