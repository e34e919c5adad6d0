import { readPasswordHash } from '../../accounts/db/account-changes.db.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict } from '../../errors.ts'

/** Refuses an account that has no password to be asked for, before it is asked for. */
export async function requireOwnPassword(context: Context, { accountId }: Actor): Promise<void> {
  if ((await readPasswordHash(context.db, accountId)) !== null) return
  throw conflict(
    'no-password',
    'Your account has no password, so this would be its only way in, or leave it none. Ask an administrator for a link to choose one first.',
  )
}
