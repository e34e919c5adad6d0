import type { ImportKind } from '../../contract/imports/imports.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Column } from '../../domain/import/column.ts'
import { COLUMNS } from '../../domain/import/columns-of-kind.ts'
import { callLevels } from '../../domain/import/level-columns.ts'
import { measureColumns } from '../../domain/import/measure-columns.ts'

/** The columns a file of a kind may have, in the unit's words; sheets also have those of all measures of the catalogue. */
export function columnsOf(kind: ImportKind, { standards, levels }: Catalogue): readonly Column[] {
  if (kind === 'roster') return callLevels(COLUMNS.roster, levels)
  if (kind !== 'sheets') return COLUMNS[kind]
  const definitions = [...standards.values()].flat().map(({ definition }) => definition)
  return [...COLUMNS.sheets, ...measureColumns(definitions)]
}

/** The same of every kind. */
export function columnsOfKinds(catalogue: Catalogue): Readonly<Record<ImportKind, readonly Column[]>> {
  return { ...COLUMNS, roster: columnsOf('roster', catalogue), sheets: columnsOf('sheets', catalogue) }
}
