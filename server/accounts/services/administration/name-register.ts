import type { Transaction } from '../../../db/client.ts'
import { nameSkeleton } from '../../../domain/access/name-skeleton.ts'
import { conflict } from '../../../errors.ts'
import { listAccountNames } from '../../db/accounts.db.ts'

/** The names of accounts by what they look like. */
export type NameRegister = Map<string, string>

/** Those there are. Accounts are locked, so that none is added meanwhile. */
export async function readNameRegister(tx: Transaction): Promise<NameRegister> {
  return new Map((await listAccountNames(tx)).map((name) => [nameSkeleton(name), name]))
}

/** Enters a name. Refuses one that is there already, or that looks like one that is. */
export function takeName(register: NameRegister, name: string): void {
  const skeleton = nameSkeleton(name)
  const double = register.get(skeleton)
  if (double === undefined) {
    register.set(skeleton, name)
    return
  }
  if (double.toLowerCase() === name.toLowerCase()) {
    throw conflict(
      'name-taken',
      'There is an account of this name already. Choose another name, or send that one a link.',
    )
  }
  throw conflict('name-too-alike', `This name looks like that of the account "${double}". Choose one that does not.`)
}
