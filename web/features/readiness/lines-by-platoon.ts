import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Readiness } from '#contract/standards/certifications.ts'
import { unitsInOrder } from '../../domain/soldiers/unit-tree.ts'
import { type StatusTally, tallyRequired, totalOf } from '../../parts/readiness/tally-status.ts'

export interface PlatoonLine {
  certification: string
  tally: StatusTally
  total: number
}

/** The units, in the order of the tree, that have anybody required themselves (not only below), with a line a certification. */
export const linesByPlatoon = (
  units: readonly Unit[],
  unitId: string | undefined,
  counts: Readiness['counts'],
): { unit: Unit; lines: PlatoonLine[] }[] =>
  unitsInOrder(units, unitId)
    .map(({ unit }) => {
      const own = counts.filter((count) => count.unitId === unit.id)
      const codes = [...new Set(own.map(({ certification }) => certification))].sort()
      const lines = codes.map((certification) => {
        const tally = tallyRequired(own.filter((count) => count.certification === certification))
        return { certification, tally, total: totalOf(tally) }
      })
      return { unit, lines: lines.filter(({ total }) => total > 0) }
    })
    .filter(({ lines }) => lines.length > 0)
