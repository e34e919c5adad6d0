import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import { bumpRevision, readCatalogue, type StandardVersion } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockCatalogue, lockSoldiers } from '../../db/locks.db.ts'
import { invalid, notFound } from '../../errors.ts'
import type { Note } from '../../record/services/recorded.ts'
import { findConcerned, publishStandardVersion } from '../db/catalogue-writes.db.ts'

/**
 * Publishes a version and judges anew whomever it concerns; a published one stays as it is. `mayJudge` may object to how
 * many those are. Out: the version, and how many sheets came to stand otherwise.
 */
export async function enterPublication(
  tx: Transaction,
  context: Context,
  id: string,
  note: Note,
  mayJudge: (people: number) => void = () => {},
): Promise<{ version: StandardVersion; sheets: number }> {
  await lockCatalogue(tx)
  const { own, all } = requireVersion((await readCatalogue(tx)).standards, id)
  if (own.publishedAt !== null) return { version: own, sheets: 0 }
  requireOrder(own, all)
  await publishStandardVersion(tx, id, context.clock())
  await bumpRevision(tx)
  const catalogue = await readCatalogue(tx)
  const concerned = await findConcerned(tx, [own.code])
  mayJudge(concerned.length)
  await lockSoldiers(tx, concerned)
  const { code, version } = own
  note({ action: 'standard.published', subject: { kind: 'standard', id }, after: { code, version } })
  const disturbed = concerned.map((soldierId) => ({ soldierId }))
  const { stoodBefore } = await settle(tx, catalogue, context.clock(), disturbed, note, { act: 'rule' })
  return { version: requireVersion(catalogue.standards, id).own, sheets: stoodBefore.length }
}

/** A version by its id, with all of its standard in order. */
export function requireVersion(
  standards: ReadonlyMap<string, readonly StandardVersion[]>,
  id: string,
): { own: StandardVersion; all: readonly StandardVersion[] } {
  for (const all of standards.values()) {
    const own = all.find((version) => version.id === id)
    if (own) return { own, all }
  }
  throw notFound('standard')
}

function requireOrder(own: StandardVersion, all: readonly StandardVersion[]): void {
  const clash = all.find(
    (other) =>
      other.publishedAt !== null &&
      (other.version < own.version
        ? other.effectiveFrom >= own.effectiveFrom
        : other.effectiveFrom <= own.effectiveFrom),
  )
  if (!clash) return
  const side = clash.version < own.version ? 'after' : 'before'
  const detail = `Version ${own.version} must begin ${side} version ${clash.version}, which is in force from ${clash.effectiveFrom}.`
  throw invalid('versions-out-of-order', '/effectiveFrom', detail)
}
