import type { Fields, RowProblem } from './read-fields.ts'

/** A row as it was read. */
export interface ReadRow extends Fields {
  readonly number: number
}

/** What one or several rows say, in the layout of the API with people by roster number; or why they say nothing. */
export interface Item {
  readonly rows: readonly number[]
  readonly value: unknown
  readonly problems: readonly RowProblem[]
}
