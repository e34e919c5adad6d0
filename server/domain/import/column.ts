/** The kinds of things a file may hold. */
export const IMPORT_KINDS = [
  'roster',
  'awards',
  'results',
  'sponsorships',
  'appointments',
  'sheets',
  'standards',
  'ceremonies',
] as const
export type ImportKind = (typeof IMPORT_KINDS)[number]

/** How the text of a cell is read. */
export type ColumnType =
  | 'text'
  | 'day'
  | 'clock'
  | 'moment'
  | 'codes'
  | 'list'
  | 'whole'
  | 'yes-no'
  | 'outcome'
  | 'left'
  | 'trials'
  | 'faults'
  | 'readings'

/** A column that a file of a kind may have. */
export interface Column {
  readonly key: string
  /** What a template calls it. */
  readonly title: string
  /** Other labels it is known by, in words a clerk may use. */
  readonly also: readonly string[]
  readonly type: ColumnType
  readonly needed: boolean
  /** What to write in it, in a few words. */
  readonly hint: string
  readonly example: string
}
