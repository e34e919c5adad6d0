import type { Unit } from '#contract/soldiers/soldiers.ts'

const byName = new Intl.Collator('en', { numeric: true })

/** Sisters in the unit's own order, and by name where it has none ("2nd" before "10th"). */
const inOrder = (a: Unit, b: Unit): number => a.place - b.place || byName.compare(a.name, b.name)

const childrenOf = (units: readonly Unit[], id: string | null): Unit[] =>
  units.filter((unit) => unit.parentId === id).sort(inOrder)

/** The tops: units without a parent, or whose parent one may not see. */
const topsOf = (units: readonly Unit[]): Unit[] => {
  const known = new Set(units.map(({ id }) => id))
  return units.filter(({ parentId }) => parentId === null || !known.has(parentId)).sort(inOrder)
}

/** A unit with the others right below the same one, in order. */
export const sistersOf = (units: readonly Unit[], { parentId }: Pick<Unit, 'parentId'>): Unit[] =>
  childrenOf(units, parentId)

export interface PlacedUnit {
  unit: Unit
  /** 0 for a top. */
  depth: number
}

/** The tree as a list: each unit before those below it, sisters in the unit's own order. */
export const unitsInOrder = (units: readonly Unit[], below?: string): PlacedUnit[] => {
  const walk = (unit: Unit, depth: number): PlacedUnit[] => [
    { unit, depth },
    ...childrenOf(units, unit.id).flatMap((child) => walk(child, depth + 1)),
  ]
  const from = below === undefined ? topsOf(units) : units.filter(({ id }) => id === below)
  return from.flatMap((unit) => walk(unit, 0))
}

/** A unit and all below it; nothing where the unit is unknown. */
export const unitsBelow = (units: readonly Unit[], top: string): Unit[] =>
  unitsInOrder(units, top).map(({ unit }) => unit)

/** A unit's name with the units above it short of the top: "2nd Platoon, B Company". '' when it is unknown. */
export const fullUnitName = (units: readonly Unit[], id: string | null): string => {
  const names: string[] = []
  let unit = units.find((candidate) => candidate.id === id)
  while (unit && names.length < units.length) {
    const above: Unit | undefined = units.find((candidate) => candidate.id === unit?.parentId)
    if (above || names.length === 0) names.push(unit.name)
    unit = above
  }
  return names.join(', ')
}

/** The time zone of a unit; of the top where no unit is named. Null while the units are unknown. */
export const timeZoneOf = (units: readonly Unit[], id?: string | null): string | null =>
  (id ? units.find((unit) => unit.id === id) : topsOf(units)[0])?.zone ?? null
