import { requireImpartial } from '../../access/services/require-impartial.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { settle, type Trigger } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { Catalogue, StoredCertification } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { isOverlap } from '../../db/database-errors.ts'
import { lockSoldiers, shareCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import type { RecordEntry } from '../../record/db/record.db.ts'
import { recorded } from '../../record/services/recorded.ts'
import { soldiersInScope } from '../db/roster.db.ts'
import { requireNotRemoved } from './removals/require-not-removed.ts'

/**
 * Stores a fact about a soldier and brings everything that hangs on it up to date, in one transaction. Nobody enters one
 * about themselves or whom they coach.
 * `store` writes the fact and says what it disturbs and what goes into the record; the soldier is locked by then.
 * Out: the id of the fact.
 */
export async function recordAboutSoldier(
  context: Context,
  actor: Actor,
  soldierId: string,
  store: (
    tx: Transaction,
    catalogue: Catalogue,
  ) => Promise<{ id: string; entry: Omit<RecordEntry, 'subject'>; triggers: readonly Trigger[] }>,
): Promise<{ id: string }> {
  const scope = await scopeFor(context, actor)
  try {
    return await recorded(context, actor, async (tx, note) => {
      await shareCatalogue(tx)
      const catalogue = await context.catalogue.current(tx)
      await lockSoldiers(tx, [soldierId])
      if ((await soldiersInScope(tx, scope, [soldierId])).length === 0) throw notFound('soldier')
      await requireNotRemoved(tx, [soldierId])
      await requireImpartial(tx, actor, [soldierId])
      const { id, entry, triggers } = await store(tx, catalogue)
      note({ ...entry, subject: { kind: 'soldier', id: soldierId } })
      await settle(tx, catalogue, context.clock(), triggers, note)
      return { id }
    })
  } catch (error) {
    if (!isOverlap(error)) throw error
    throw conflict(
      'period-overlaps',
      'The same is recorded already for a time that overlaps. Give a period that does not, or none.',
    )
  }
}

/** The certification of this code; an unknown one is invalid. */
export function requireCertification(catalogue: Catalogue, code: string): StoredCertification {
  const found = catalogue.certifications.find((one) => one.code === code)
  if (!found) throw invalid('unknown-certification', '/certification', `There is no certification "${code}".`)
  return found
}

/** Refuses a standard that the catalogue lacks. */
export function requireStandard(catalogue: Catalogue, code: string): void {
  if (!catalogue.standards.has(code)) throw invalid('unknown-standard', '/standard', `There is no standard "${code}".`)
}
