import { ceremonyItems } from './ceremony-items.ts'
import type { ImportKind } from './column.ts'
import type { Item, ReadRow } from './item.ts'
import type { Fields } from './read-fields.ts'
import { type StandardToRead, sheetItem } from './sheet-item.ts'
import { standardItems } from './standard-items.ts'

/**
 * Makes the things that rows are about, in their order. Standards and ceremonies have a row for each measure and post, and
 * are refused as a whole; all else is one row each.
 */
export function toItems(
  kind: ImportKind,
  rows: readonly ReadRow[],
  findStandard: (name: string) => StandardToRead | null,
): Item[] {
  if (kind === 'standards') return standardItems(rows)
  if (kind === 'ceremonies') return ceremonyItems(rows)
  return rows.map(({ number, values, problems }) => {
    const item = kind === 'sheets' ? sheetItem(values, findStandard) : { value: rosterUnit(kind, values), problems: [] }
    return { rows: [number], value: item.value, problems: [...problems, ...item.problems] }
  })
}

/** Company, platoon and team of their own columns go below the unit. */
function rosterUnit(kind: ImportKind, { company, platoon, team, ...values }: Fields['values']): unknown {
  if (kind !== 'roster') return values
  const path = [values.unit, company, platoon, team].filter((part) => typeof part === 'string')
  return path.length === 0 ? values : { ...values, unit: path.join(' / ') }
}
