/** A level of the tree of units, as the unit itself calls it. */
export interface Level {
  readonly code: string
  /** "flight": one of them, as in the middle of a sentence. */
  readonly one: string
  /** "flights". */
  readonly many: string
  /** Findings compare the units of this level; one level is. */
  readonly compared: boolean
}

/** The levels from the top down until a unit has said its own. */
export const FIRST_LEVELS: readonly Level[] = [
  { code: 'unit', one: 'unit', many: 'units', compared: false },
  { code: 'company', one: 'company', many: 'companies', compared: true },
  { code: 'platoon', one: 'platoon', many: 'platoons', compared: false },
]

/** The level of a unit so many steps below the top; the lowest where there are no more. */
export const levelAtDepth = (levels: readonly Level[], depth: number): Level =>
  levels[Math.min(depth, levels.length - 1)]!
