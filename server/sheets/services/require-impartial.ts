import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { AppError } from '../../errors.ts'
import { isPartial } from '../db/impartiality.db.ts'

/** Refuses to let who coaches a candidate, or is the candidate, amend or decide about their sheets. */
export async function requireImpartial(tx: Transaction, actor: Actor, candidateId: string): Promise<void> {
  if (actor.soldierId === null || !(await isPartial(tx, actor.soldierId, candidateId))) return
  const detail =
    'Who coaches a candidate neither amends nor decides for them. Leave it to another person of the office.'
  throw new AppError('not-allowed', 'impartiality', detail)
}
