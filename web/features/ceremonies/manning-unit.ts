import type { Session } from '#contract/accounts/session.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { unitsBelow } from '../../domain/soldiers/unit-tree.ts'

/** The units whose ceremonies an account may plan: the office any; who leads a unit, that one and those below it. */
export const plannableUnits = (
  units: readonly Unit[],
  session: Pick<Session, 'roles' | 'unitId'> | null | undefined,
): Unit[] => {
  if (session?.roles.includes('office')) return [...units]
  return session?.unitId ? unitsBelow(units, session.unitId) : []
}

/**
 * The unit that a plan begins with: the one wanted (of the ceremony changed or copied) where the planner may use it, else
 * their own, else the top of those they may use. '' when there is none.
 */
export const manningUnit = (plannable: readonly Unit[], ownId: string | null, wanted: string | undefined): string => {
  const has = (id: string | null | undefined) => plannable.some((unit) => unit.id === id)
  if (wanted !== undefined && has(wanted)) return wanted
  if (ownId !== null && has(ownId)) return ownId
  return plannable.find(({ parentId }) => parentId === null || !has(parentId))?.id ?? ''
}
