import { findPartialTo } from '../../access/db/impartiality.db.ts'
import { NOT_IMPARTIAL } from '../../access/services/require-impartial.ts'
import type { ImportKind } from '../../contract/imports/imports.ts'
import { soldiersByNumber } from '../db/import-people.db.ts'
import type { Given, Run } from './run.ts'

type About = ((item: never) => string | undefined) | null

const theSoldier = ({ rosterNumber }: { rosterNumber?: string }) => rosterNumber
const theCandidate = ({ candidate }: { candidate?: string }) => candidate

/** Whom a row is about, by roster number: whose standing it may change. Null: nobody, or it says so itself (the roster). */
const ABOUT: Readonly<Record<ImportKind, About>> = {
  roster: null,
  awards: theSoldier,
  results: theCandidate,
  sponsorships: theCandidate,
  appointments: theSoldier,
  sheets: theCandidate,
  standards: null,
  ceremonies: null,
}

/** Adds to the faults of rows about whoever sends the file and whom they coach that they may not take them in. */
export async function refuseOwnCase(
  { tx, note }: Run,
  kind: ImportKind,
  given: readonly Given<never>[],
): Promise<readonly Given<never>[]> {
  const about = ABOUT[kind]
  if (about === null || note.soldierId === null) return given
  const numbers = [...new Set(given.flatMap(({ item }) => about(item) ?? []))]
  const soldiers = await soldiersByNumber(tx, numbers)
  const ids = [...soldiers.values()].map(({ id }) => id)
  const partial = new Set(await findPartialTo(tx, note.soldierId, ids))
  const isOwn = ({ item }: Given<never>) => partial.has(soldiers.get(about(item) ?? '')?.id ?? '')
  return given.map((one) => (isOwn(one) ? { ...one, faults: [...one.faults, NOT_IMPARTIAL] } : one))
}
