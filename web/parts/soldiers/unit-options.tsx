import type { Unit } from '#contract/soldiers/soldiers.ts'
import { unitsInOrder } from '../../domain/soldiers/unit-tree.ts'

const INDENT = '\u2003'

/** The units of the tree as choices, indented by depth. */
export function UnitOptions({ units }: { units: readonly Unit[] }) {
  return unitsInOrder(units).map(({ unit, depth }) => (
    <option key={unit.id} value={unit.id}>
      {INDENT.repeat(depth)}
      {unit.name}
      {unit.closedFrom && `, closed from ${unit.closedFrom}`}
    </option>
  ))
}
