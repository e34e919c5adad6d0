import type { Column, ImportKind } from './column.ts'
import { PEOPLE_COLUMNS } from './people-columns.ts'
import { TEST_COLUMNS } from './test-columns.ts'

/** The columns of each kind of file. */
export const COLUMNS: Readonly<Record<ImportKind, readonly Column[]>> = { ...PEOPLE_COLUMNS, ...TEST_COLUMNS }
