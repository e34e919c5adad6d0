import type { KnownBefore } from '../../domain/assessment/types.ts'
import type { CountedSheet } from '../db/counted-sheets.db.ts'
import type { StoredDossier, StoredSheet } from '../db/dossiers.db.ts'
import type { NewSheet } from '../db/new-sheets.db.ts'

/** A sheet that is not stored yet, with all that is known of its candidate, who is locked: nothing of it need be read again. */
export interface Arrival {
  readonly sheet: NewSheet
  /** Of the candidate, from the place of the new sheet on; it is among the others. */
  readonly dossier: StoredDossier
  readonly settled: KnownBefore
  readonly content: CountedSheet
  /** Of all units the candidate was in. */
  readonly lineages: ReadonlyMap<string, readonly string[]>
  /** Others' sheets may hang on how the candidate stands. */
  readonly vouches: boolean
  /** The candidate has bookings whose time has not come. */
  readonly isBookedAhead: boolean
}

/** What a new sheet will be as it is read back. In: the code and version of its standard. */
export function toStored({ fields, revision }: NewSheet, standard: string, version: number): StoredSheet {
  const { ending, secondOf, startedAt, finishedAt } = fields
  return {
    ...fields,
    standard,
    version,
    outcome: fields.outcome as StoredSheet['outcome'],
    startedAt: Date.parse(startedAt),
    finishedAt: Date.parse(finishedAt),
    storedAt: revision.at.getTime(),
    outcomeOnly: ending === 'recorded',
    isVoid: ending === 'void',
    isSecond: secondOf !== null,
    revision: revision.number,
    violations: [],
    waived: [],
    tolerated: [],
    overlaps: false,
    attempts: [],
    talliedKind: null,
    talliedUnitId: null,
  }
}
