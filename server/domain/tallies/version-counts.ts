import type { JudgedDefinition } from '../standards/measure-eras.ts'
import type { CountedDefinition } from './tally-layout.ts'

/** A version of a standard as figures about its measures need it. */
export interface FindingsVersion {
  readonly standard: string
  readonly version: number
  readonly definition: JudgedDefinition & CountedDefinition
}

/** Something counted under one version. */
export type OfVersion<Counts> = Counts & { readonly of: FindingsVersion }

/** How many sheets of a version have exactly these marks. */
export type PatternCount = OfVersion<{ readonly marks: string; readonly sheets: number }>

/** Groups by standard, in the order in which standards first come. */
export function byStandard<Row extends OfVersion<unknown>>(rows: readonly Row[]): Map<string, Row[]> {
  return grouped(rows, ({ of }) => of.standard)
}

/** Groups by version number, of rows of one standard, in the order in which versions first come. */
export function byVersion<Row extends OfVersion<unknown>>(rows: readonly Row[]): Map<number, Row[]> {
  return grouped(rows, ({ of }) => of.version)
}

function grouped<Row, Key>(rows: readonly Row[], keyOf: (row: Row) => Key): Map<Key, Row[]> {
  const groups = new Map<Key, Row[]>()
  for (const row of rows) {
    const group = groups.get(keyOf(row))
    if (group) group.push(row)
    else groups.set(keyOf(row), [row])
  }
  return groups
}
