import type { Transaction } from '../../db/client.ts'
import { AppError } from '../../errors.ts'
import { findPartialTo } from '../db/impartiality.db.ts'

/** Why a person may not make a change; the same words in a problem and beside a row of a file. */
export const NOT_IMPARTIAL =
  'This is about yourself or somebody you coach, or changes how one of you stands. Leave it to another person of the office.'

/**
 * Refuses what somebody would enter or decide about themselves or whom they coach (or coached since the last award).
 * In: whoever acts, by the soldier they are (null: none, so that they have no case of their own), and whom it is about.
 */
export async function requireImpartial(
  tx: Transaction,
  { soldierId }: { readonly soldierId: string | null },
  about: readonly string[],
): Promise<void> {
  if (soldierId === null || about.length === 0) return
  if ((await findPartialTo(tx, soldierId, about)).length === 0) return
  throw new AppError('not-allowed', 'impartiality', NOT_IMPARTIAL)
}
