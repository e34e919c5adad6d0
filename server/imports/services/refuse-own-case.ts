import { findPartialTo } from '../../access/db/impartiality.db.ts'
import { NOT_IMPARTIAL } from '../../access/services/require-impartial.ts'
import type { ImportKind } from '../../contract/imports/imports.ts'
import { soldiersByNumber } from '../db/import-people.db.ts'
import type { Given, Run, Verdict } from './run.ts'

/** Whom a row is about, by roster number: whose standing it may change. Null: nobody, or it says so itself (the roster). */
const ABOUT: Readonly<Record<ImportKind, ((item: never) => string) | null>> = {
  roster: null,
  awards: ({ rosterNumber }: { rosterNumber: string }) => rosterNumber,
  results: ({ candidate }: { candidate: string }) => candidate,
  sponsorships: ({ candidate }: { candidate: string }) => candidate,
  appointments: ({ rosterNumber }: { rosterNumber: string }) => rosterNumber,
  sheets: ({ candidate }: { candidate: string }) => candidate,
  standards: null,
  ceremonies: null,
}

/** Takes out the rows about whoever sends the file and whom they coach, each refused with why; the rest is taken in. */
export async function refuseOwnCase(
  { tx, note }: Run,
  kind: ImportKind,
  given: readonly Given<never>[],
): Promise<{ own: Map<number, Verdict>; others: readonly Given<never>[] }> {
  const about = ABOUT[kind]
  const own = new Map<number, Verdict>()
  if (about === null || note.soldierId === null) return { own, others: given }
  const numbers = [...new Set(given.map(({ item }) => about(item)))]
  const soldiers = await soldiersByNumber(tx, numbers)
  const ids = [...soldiers.values()].map(({ id }) => id)
  const partial = new Set(await findPartialTo(tx, note.soldierId, ids))
  const isOwn = ({ item }: Given<never>) => partial.has(soldiers.get(about(item))?.id ?? '')
  for (const one of given.filter(isOwn)) {
    for (const row of one.rows) own.set(row, { outcome: 'refused', about: about(one.item), reasons: [NOT_IMPARTIAL] })
  }
  return { own, others: given.filter((one) => !isOwn(one)) }
}
