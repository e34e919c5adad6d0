import type { Readiness } from '#contract/certifications.ts'
import type { Unit } from '#contract/people.ts'
import { type StatusTally, tallyRequired, totalOf } from '../../model/tally-status.ts'
import { unitsInOrder } from '../../model/unit-tree.ts'

export interface UnitLine {
  unit: Unit
  tally: StatusTally
  total: number
}

/**
 * One certification, unit by unit one step below the top of the tree (the companies of a battalion); people directly in
 * the top are a line of their own. Without anything below, the top alone. Units nobody is required in are left out.
 */
export const unitLines = (units: readonly Unit[], counts: Readiness['counts'], certification: string): UnitLine[] => {
  const ours = counts.filter((count) => count.certification === certification)
  const tree = unitsInOrder(units)
  return tree
    .filter(({ depth }) => depth <= 1)
    .map(({ unit, depth }) => {
      const under = depth === 0 ? [unit.id] : unitsInOrder(units, unit.id).map((placed) => placed.unit.id)
      const tally = tallyRequired(ours.filter(({ unitId }) => under.includes(unitId)))
      return { unit, tally, total: totalOf(tally) }
    })
    .filter(({ total }) => total > 0)
}
