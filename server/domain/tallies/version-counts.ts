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

/** Groups by standard, in the order in which standards first come. */
export function byStandard<Counts>(rows: readonly OfVersion<Counts>[]): Map<string, OfVersion<Counts>[]> {
  const groups = new Map<string, OfVersion<Counts>[]>()
  for (const row of rows) groups.set(row.of.standard, [...(groups.get(row.of.standard) ?? []), row])
  return groups
}
