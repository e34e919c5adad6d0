import type { ImportKind } from '../domain/import/column.ts'
import type { FileRow } from '../domain/import/file-row.ts'
import type { Obstacle } from '../errors.ts'
import type { OpenedTable } from './open-table.ts'
import type { MergedCell } from './read-xlsx.ts'

/** What a reader is asked. */
export interface Asked {
  readonly path: string
  readonly mostBytes: number
  readonly sheet?: string | undefined
}

/** A piece of a file, in order: first what it is, then its rows or things some at a time, then the cells that span columns. */
export type Part =
  | { readonly table: Pick<OpenedTable, 'format' | 'sheets' | 'sheet'> }
  | { readonly json: { readonly kind: ImportKind; readonly count: number } | null }
  | { readonly rows: readonly FileRow[] }
  | { readonly items: readonly unknown[] }
  | { readonly merged: readonly MergedCell[] }

/** What a reader says; after each part it waits to be asked for more. */
export type Said = Part | { readonly done: true } | { readonly refused: Obstacle } | { readonly failed: string }
