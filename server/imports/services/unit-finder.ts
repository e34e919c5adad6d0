import { insertUnit } from '../../access/db/units.db.ts'
import { readLevels, shareLevels } from '../../db/levels.db.ts'
import { resolveUnit, splitPath } from '../../domain/import/resolve-unit.ts'
import { levelAtDepth } from '../../domain/people/levels.ts'
import { allUnits } from '../db/import-people.db.ts'
import type { Run } from './run.ts'

/** How a row names a unit. */
export interface NamedUnit {
  readonly unit?: string | undefined
  readonly unitId?: string | undefined
}

export interface UnitFinder {
  /** The unit that a file names; makes those that its path names and are not there. */
  find(named: NamedUnit): Promise<{ id: string } | { wrong: string }>
  /** Why a row names none, for a row that is refused and makes none; null: it names one, or none at all. */
  whyNone(named: NamedUnit): string | null
  /** The path of a unit, for words. */
  nameOf(id: string): string
  readonly added: readonly string[]
}

/** Finds the units that a file names. `mayAdd`: whether paths of units that are not there make them. */
export async function unitFinder({ tx, note }: Run, mayAdd: boolean): Promise<UnitFinder> {
  const units = await allUnits(tx)
  const added: string[] = []
  const known = new Map<string, { id: string } | { wrong: string }>()

  async function make(path: readonly string[]): Promise<{ id: string }> {
    const { parentId, missing } = splitPath(units, path)
    await shareLevels(tx)
    const levels = await readLevels(tx)
    let above = parentId
    for (const [index, name] of missing.entries()) {
      const kind = levelAtDepth(levels, path.length - missing.length + index).code
      const body = { name, kind, parentId: above, timeZone: null }
      const id = await insertUnit(tx, body)
      note({ action: 'unit.created', subject: { kind: 'unit', id }, after: body })
      units.push({ id, name, kind, parentId: above })
      added.push(path.slice(0, path.length - missing.length + index + 1).join(' / '))
      above = id
    }
    return { id: above! }
  }

  async function resolve(unit: string): Promise<{ id: string } | { wrong: string }> {
    const found = resolveUnit(units, unit)
    if (!('path' in found)) return found
    return mayAdd ? make(found.path) : { wrong: `There is no unit "${unit}".` }
  }

  const byId = (id: string) =>
    units.some((unit) => unit.id === id) ? { id } : { wrong: `There is no unit with the id ${id}.` }

  return {
    added,
    nameOf: (id) => units.find((unit) => unit.id === id)?.name ?? 'a unit',
    async find({ unit, unitId }) {
      if (unitId !== undefined) return byId(unitId)
      if (unit === undefined) return { wrong: 'No unit is given.' }
      const found = known.get(unit) ?? (await resolve(unit))
      known.set(unit, found)
      return found
    },
    whyNone({ unit, unitId }) {
      if ((unit ?? unitId) === undefined) return null
      const found = unitId === undefined ? resolveUnit(units, unit!) : byId(unitId)
      return 'wrong' in found ? found.wrong : null
    },
  }
}
