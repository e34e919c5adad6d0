import type { Transaction } from '../../../db/client.ts'
import { conflict } from '../../../errors.ts'
import { countAdministrators } from '../../db/account-changes.db.ts'

/** Refuses a change after which nobody could manage accounts any more. Accounts are locked, so it stays true. */
export async function keepAnAdministrator(tx: Transaction): Promise<void> {
  if ((await countAdministrators(tx)) > 0) return
  throw conflict(
    'last-administrator',
    'This is the last administrator who can sign in. Make somebody else one first, who has chosen a password.',
  )
}
