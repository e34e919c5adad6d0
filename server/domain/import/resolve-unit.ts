interface Unit {
  readonly id: string
  readonly name: string
  readonly parentId: string | null
}

/** The unit meant; or the names from the top of one that is not there yet; or why none can be meant. */
export type UnitReading = { readonly id: string } | { readonly path: readonly string[] } | { readonly wrong: string }

/**
 * Finds the unit that a text names: by its name alone where only one has it, or by names from the top or any unit on,
 * with ` / `, `>` or `|` between, or as pages show it: the lowest first, with commas. A path that goes on below the units that are there names new ones; a single name that
 * is unknown does so only where there is no unit at all, for it may be misspelt.
 */
export function resolveUnit(units: readonly Unit[], text: string): UnitReading {
  const whole = units.filter(({ name }) => same(name, text))
  if (whole.length === 1) return { id: whole[0]!.id }
  const names = text
    .split(/\s+\/\s+|\s*[>›»|]\s*/)
    .map((name) => name.trim())
    .filter((name) => name !== '')
  if (names.length === 0) return { wrong: 'The unit is empty.' }
  if (whole.length > 1) {
    return { wrong: `${whole.length} units are called "${text}". Give the path from the top, with / between.` }
  }
  const ends = names.length > 1 ? units.filter((unit) => endsWith(units, unit, names)) : []
  if (ends.length === 1) return { id: ends[0]!.id }
  if (ends.length > 1) return { wrong: `"${text}" may be ${ends.length} units. Give the whole path from the top.` }
  const shown = asShown(units, text)
  if (shown.length === 1) return { id: shown[0]!.id }
  if (shown.length > 1) return { wrong: `"${text}" may be ${shown.length} units. Give the whole path from the top.` }
  if (names.length === 1 && units.length > 0) {
    return { wrong: `There is no unit "${text}". Mend the name, or give the path from the top to add it.` }
  }
  return newPath(units, names, text)
}

/** Units that pages show so: "4th Platoon, A Company", the lowest first; a name may hold a comma itself. */
function asShown(units: readonly Unit[], text: string): Unit[] {
  return units.filter((unit) => {
    let shown = unit.name
    for (let at = above(units, unit); at !== undefined; at = above(units, at)) {
      shown = `${shown}, ${at.name}`
      if (same(shown.replace(/\s*,\s*/g, ', '), text.replace(/\s*,\s*/g, ', '))) return true
    }
    return false
  })
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

const above = (units: readonly Unit[], { parentId }: Unit): Unit | undefined =>
  parentId === null ? undefined : units.find(({ id }) => id === parentId)

function endsWith(units: readonly Unit[], unit: Unit, names: readonly string[]): boolean {
  let at: Unit | undefined = unit
  for (const name of [...names].reverse()) {
    if (at === undefined || !same(at.name, name)) return false
    at = above(units, at)
  }
  return true
}

/** A path whose first names are there, from the top or from a unit of an unmistakable name. */
function newPath(units: readonly Unit[], names: readonly string[], text: string): UnitReading {
  if (units.length === 0) return { path: names }
  const first = units.filter(({ name }) => same(name, names[0]!))
  if (first.length !== 1) return { wrong: `The path "${text}" begins with no unit that is there. Begin it at the top.` }
  return { path: [...pathOf(units, first[0]!), ...names.slice(1)] }
}

/** The names of a unit and all above it, from the top. */
export function pathOf(units: readonly Unit[], unit: Unit): string[] {
  const parent = above(units, unit)
  return [...(parent ? pathOf(units, parent) : []), unit.name]
}

/** The unit in which a new one of this path is made: the lowest that is there already, and the names still to be made. */
export function splitPath(
  units: readonly Unit[],
  path: readonly string[],
): { parentId: string | null; missing: readonly string[] } {
  let parentId: string | null = null
  for (const [index, name] of path.entries()) {
    const next = units.find((unit) => unit.parentId === parentId && same(unit.name, name))
    if (!next) return { parentId, missing: path.slice(index) }
    parentId = next.id
  }
  return { parentId, missing: [] }
}
