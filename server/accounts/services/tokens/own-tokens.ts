import { isAtOrBelow, unitsInScope } from '../../../access/db/units.db.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { MadeToken, ScriptToken, TokenBody } from '../../../contract/accounts/tokens.ts'
import type { Transaction } from '../../../db/client.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import type { Actor, TokenScope } from '../../../domain/access/actor.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockAccount } from '../../db/account-changes.db.ts'
import { deleteToken, insertToken, listTokens } from '../../db/script-tokens.db.ts'
import { hashToken } from '../token.ts'
import { newScriptToken } from './script-token.ts'

const MOST_TOKENS = 20
const DAY_MS = 86_400_000

/** One's own tokens by name, also those that have expired. */
export async function findOwnTokens(
  context: Context,
  { accountId }: Actor,
): Promise<{ items: ScriptToken[]; next: null }> {
  const items = (await listTokens(context.db, accountId)).map(({ scopes, createdAt, expiresAt, ...rest }) => ({
    ...rest,
    scopes: scopes as TokenScope[],
    createdAt: createdAt.toISOString(),
    expiresAt: expiresAt.toISOString(),
  }))
  return { items, next: null }
}

/** Makes a token, told this once. Its route asks first who one is, since a token outlives the session. */
export async function makeToken(context: Context, actor: Actor, { days, ...body }: TokenBody): Promise<MadeToken> {
  const token = newScriptToken()
  const createdAt = context.clock()
  const expiresAt = new Date(createdAt.getTime() + days * DAY_MS)
  try {
    return await recorded(context, actor, async (tx, note) => {
      await lockAccount(tx, actor.accountId)
      if (body.unitId !== null) await requireReach(context, tx, actor, body.unitId)
      if ((await listTokens(tx, actor.accountId)).length >= MOST_TOKENS) throw tooMany()
      const row = { ...body, accountId: actor.accountId, tokenHash: hashToken(token), createdAt, expiresAt }
      const id = await insertToken(tx, row)
      note({
        action: 'account.token-made',
        subject: { kind: 'account', id: actor.accountId },
        after: { ...body, expiresAt: expiresAt.toISOString() },
      })
      return { id, token, expiresAt: expiresAt.toISOString() }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('token-name-used', `You have a token called ${body.name}. Choose another name, or end that one.`)
  }
}

/** Ends one of one's own tokens at once; those of others are not found. */
export async function revokeToken(context: Context, actor: Actor, id: string): Promise<void> {
  await recorded(context, actor, async (tx, note) => {
    const name = await deleteToken(tx, actor.accountId, id)
    if (name === null) throw notFound('token')
    note({ action: 'account.token-revoked', subject: { kind: 'account', id: actor.accountId }, before: { name } })
  })
}

/** A token is limited to a unit that its owner sees as the office or leads, not to one where they only grade or coach. */
async function requireReach(context: Context, tx: Transaction, actor: Actor, unitId: string): Promise<void> {
  const scope = await scopeFor(context, actor)
  const reaches = scope.everyone
    ? (await unitsInScope(tx, scope, [unitId])).length > 0
    : scope.unitId !== null && (await isAtOrBelow(tx, unitId, scope.unitId))
  if (!reaches) throw invalid('unit-out-of-reach', '/unitId', 'You lead no such unit. Choose yours or one below it.')
}

const tooMany = () =>
  conflict('too-many-tokens', `You have ${MOST_TOKENS} tokens, the most there may be. End one that no script uses.`)
