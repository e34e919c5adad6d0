import { totalOf } from '../../parts/readiness/tally-status.ts'
import { STATE_WORDS, STATES } from '../../ui/state-mark.tsx'
import type { Cell } from '../../ui/to-csv.ts'
import type { linesByPlatoon } from './lines-by-platoon.ts'

/** The lines of the platoons as a table for a file: how many are required, and of these how many in which state. */
export const tallyCells = (
  platoons: ReturnType<typeof linesByPlatoon>,
  unitName: (unitId: string) => string,
  title: (certification: string) => string,
): Cell[][] => [
  ['Unit', 'Certification', 'Required', ...STATES.map((state) => STATE_WORDS[state])],
  ...platoons.flatMap(({ unit, lines }) =>
    lines.map(({ certification, tally }) => [
      unitName(unit.id),
      title(certification),
      totalOf(tally),
      ...STATES.map((state) => tally[state]),
    ]),
  ),
]
