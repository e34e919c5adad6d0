import type { Context } from '../../../context/context.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { deleteSession, readSession } from '../../db/sessions.db.ts'
import { hashToken } from '../token.ts'
import type { Visitor } from './visitor.ts'

/** Ends the session a browser holds the token of; where it holds none, nothing happens. */
export async function signOut(context: Context, { sessionToken, address }: Visitor): Promise<void> {
  if (sessionToken === undefined) return
  const tokenHash = hashToken(sessionToken)
  const session = await readSession(context.db, tokenHash)
  if (session === null) return
  const { accountId, name } = session
  await recorded(context, { accountId, name, address, soldierId: null }, async (tx, note) => {
    if (await deleteSession(tx, tokenHash)) {
      note({ action: 'session.closed', subject: { kind: 'account', id: accountId } })
    }
  })
}
