import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { invalid } from '../../errors.ts'
import { readAccountByName, readAccountsOfOffice } from '../db/accounts.db.ts'
import { toActor } from './sessions/to-actor.ts'

/** The account a command is done as: the one named, or without a name the only one of the training office. */
export async function actorByName(context: Context, name: string | undefined): Promise<Actor> {
  if (name !== undefined) {
    const account = await readAccountByName(context.db, name)
    if (!account || account.isDisabled)
      throw invalid('unknown-account', '', `There is no account "${name}" that can sign in.`)
    return toActor(account)
  }
  const accounts = await readAccountsOfOffice(context.db)
  if (accounts.length === 1) return toActor(accounts[0]!)
  const names = accounts.map((account) => account.name).join(', ')
  throw invalid(
    'whose',
    '',
    accounts.length === 0
      ? 'There is no account of the training office yet; make one first.'
      : `Say as whom: --as with one of ${names}.`,
  )
}
