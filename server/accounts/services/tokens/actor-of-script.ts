import type { Context } from '../../../context/context.ts'
import type { ErrorCode } from '../../../contract/error-codes.ts'
import type { Actor, TokenScope } from '../../../domain/access/actor.ts'
import { dayInZone } from '../../../domain/calendar/day-in-zone.ts'
import { AppError } from '../../../errors.ts'
import { readToken, touchToken } from '../../db/script-tokens.db.ts'
import { toActor } from '../sessions/to-actor.ts'
import { hashToken } from '../token.ts'
import { isScriptToken } from './script-token.ts'

/**
 * Who a script acts for: its owner with the roles they have now, on record by the token's name. In: the token, and the
 * scope it needs for what it asks (undefined: no script may ask it). Throws not-signed-in for a token that is unknown,
 * revoked or expired or whose owner is disabled, not-allowed for one that is for something else.
 */
export async function actorOfScript(context: Context, text: string, needed: TokenScope | undefined): Promise<Actor> {
  const token = isScriptToken(text) ? await readToken(context.db, hashToken(text)) : null
  const now = context.clock()
  if (!token || token.expiresAt <= now) {
    const detail = 'This token is unknown, revoked or expired. Make a new one under My account.'
    throw new AppError('not-signed-in', 'not-signed-in', detail)
  }
  const { tokenId, tokenName, tokenUnitId } = token
  if (needed === undefined) {
    throw refused('not-for-tokens', 'No token may do this; it takes somebody who is signed in.')
  }
  if (!token.scopes.includes(needed)) {
    throw refused(
      'token-not-for-this',
      `The token ${tokenName} does not have the scope ${needed}. Make one that has it.`,
    )
  }
  if (!token.reachesUnit) {
    throw refused('token-out-of-reach', `The owner of the token ${tokenName} no longer leads the unit it is for.`)
  }
  const today = dayInZone(now.getTime(), 'UTC')
  if (token.lastUsedOn !== today) await touchToken(context.db, tokenId, today)
  return {
    ...toActor(token),
    name: `${token.name}, by token ${tokenName}`,
    token: { id: tokenId, unitId: tokenUnitId },
  }
}

const refused = (rule: ErrorCode, detail: string): AppError => new AppError('not-allowed', rule, detail)
