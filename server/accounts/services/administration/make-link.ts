import type { InvitationLink } from '../../../contract/accounts/accounts.ts'
import type { Transaction } from '../../../db/client.ts'
import { replaceInvitation } from '../../db/invitations.db.ts'
import { hashToken, newToken } from '../token.ts'

/** A link is good over a weekend. */
const VALID_MS = 72 * 3_600_000

/** Makes the one-time link with which the password of an account is chosen; an earlier one ends. It is told this once. */
export async function makeLink(tx: Transaction, accountId: string, now: Date): Promise<InvitationLink> {
  const token = newToken()
  const expiresAt = new Date(now.getTime() + VALID_MS)
  await replaceInvitation(tx, accountId, hashToken(token), expiresAt)
  return { id: accountId, token, expiresAt: expiresAt.toISOString() }
}
