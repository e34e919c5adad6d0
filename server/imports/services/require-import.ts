import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { readImport, type StoredImport } from '../db/imports.db.ts'

/** A file that this account sent; another's is as if it were not there. */
export async function requireImport({ db }: Pick<Context, 'db'>, actor: Actor, id: string): Promise<StoredImport> {
  requireAction(actor, 'manage-people')
  const found = await readImport(db, actor.accountId, id)
  if (!found) throw notFound('file; it may have been removed after its day')
  return found
}
