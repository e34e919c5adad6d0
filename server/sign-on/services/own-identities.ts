import { readPasswordHash } from '../../accounts/db/account-changes.db.ts'
import { requirePresentPassword } from '../../accounts/services/present-password.ts'
import { passAttempt } from '../../accounts/services/sessions/attempts.ts'
import type { Visitor } from '../../accounts/services/sessions/visitor.ts'
import { hashToken } from '../../accounts/services/token.ts'
import type { Context } from '../../context/context.ts'
import type { OwnIdentityList, UnlinkBody } from '../../contract/sign-on/sign-on.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { deleteIdentity, listOwnIdentities } from '../db/identities.db.ts'
import { requireOwnPassword } from './require-own-password.ts'

/** The providers one's own account is linked with, or could be. */
export async function findOwnIdentities(context: Context, { accountId }: Actor): Promise<OwnIdentityList> {
  const items = (await listOwnIdentities(context.db, accountId)).map(({ linkedAt, ...rest }) => ({
    ...rest,
    linkedAt: linkedAt?.toISOString() ?? null,
  }))
  return { items, next: null, hasPassword: (await readPasswordHash(context.db, accountId)) !== null }
}

/** Ends a link of one's own account, and the other sessions opened by it. The password stays as the way in, and is asked for. */
export async function unlinkOwn(
  context: Context,
  actor: Actor,
  id: string,
  { password }: UnlinkBody,
  visitor: Visitor,
): Promise<void> {
  await requireOwnPassword(context, actor)
  const { counters } = await requirePresentPassword(context, actor, visitor, password, '/password')
  await recorded(context, actor, async (tx, note) => {
    await passAttempt(tx, counters)
    const ended = await deleteIdentity(tx, actor.accountId, id, hashToken(visitor.sessionToken ?? ''))
    if (ended === null) throw notFound('link')
    note({
      action: 'account.unlinked',
      subject: { kind: 'account', id: actor.accountId },
      before: { with: ended.name },
      after: { sessionsEnded: ended.ended },
    })
  })
}
