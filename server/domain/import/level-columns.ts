import type { Level } from '../people/levels.ts'
import type { Column } from './column.ts'

/** The columns of a roster that name the levels below the top, from the second down. */
const BELOW_TOP = ['company', 'platoon', 'team']

/**
 * The columns of a roster with the unit's own words for its levels: "Flight" where it has flights, and no column for a level
 * it does not have. A file that says "Company" all the same is understood as before.
 */
export function callLevels(columns: readonly Column[], levels: readonly Level[]): Column[] {
  return columns.flatMap((column) => {
    const at = BELOW_TOP.indexOf(column.key)
    if (at < 0) return [column]
    const level = levels[at + 1]
    if (level === undefined) return []
    const title = level.one.charAt(0).toUpperCase() + level.one.slice(1)
    if (title === column.title) return [column]
    // What another level is called is no other word for this one.
    const others = new Set(levels.filter((one) => one !== level).map(({ one }) => one.toLowerCase()))
    const also = [column.title, ...column.also, level.many].filter((word) => !others.has(word.toLowerCase()))
    return [{ ...column, title, also, example: `1st ${title}` }]
  })
}
