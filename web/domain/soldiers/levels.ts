import type { UnitLevel } from '#contract/soldiers/levels.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { capital, countedInWords, listed } from '../../words/format-number.ts'

export type LevelWords = Pick<UnitLevel, 'one' | 'many'>

/** What any unit may be called, whatever its level. */
const ANY: LevelWords = { one: 'unit', many: 'units' }

/** The words for a level; while the levels are not known, those for any unit. */
export const levelOf = (levels: readonly UnitLevel[] | undefined, code: string): LevelWords =>
  levels?.find((level) => level.code === code) ?? ANY

/** The words for the level that findings compare. */
export const comparedLevel = (levels: readonly UnitLevel[] | undefined): LevelWords =>
  levels?.find(({ compared }) => compared) ?? ANY

/** The words for what most of these units are. */
export function mostlyOf(levels: readonly UnitLevel[] | undefined, units: readonly Unit[]): LevelWords {
  const count = (code: string) => units.filter(({ kind }) => kind === code).length
  const [most] = [...(levels ?? [])].sort((a, b) => count(b.code) - count(a.code))
  return most && count(most.code) > 0 ? most : ANY
}

/** The level that a unit below one of a level is likely to be of; at the top the first. */
export function levelBelow(levels: readonly UnitLevel[], kind: string | undefined): string {
  const at = levels.findIndex(({ code }) => code === kind)
  return levels[Math.min(at + 1, levels.length - 1)]!.code
}

/** "One battalion, two companies and four platoons." In: the levels, and the units that are counted. */
export function formatTree(levels: readonly UnitLevel[], units: readonly Unit[]): string {
  if (units.length === 0) return 'There is no unit yet: begin with the one at the top.'
  const parts = levels.flatMap(({ code, one, many }) => {
    const count = units.filter(({ kind }) => kind === code).length
    return count === 0 ? [] : [countedInWords(count, one, many)]
  })
  return capital(`${listed(parts)}.`)
}
