import { readNameRegister, takeName } from '../../accounts/services/administration/name-register.ts'
import { requireAdministrator } from '../../accounts/services/administration/require-administrator.ts'
import type { Context } from '../../context/context.ts'
import type { Trial, TrialBody } from '../../contract/sign-on/providers.ts'
import { inTransaction } from '../../db/transaction.ts'
import { accountName } from '../../domain/access/account-name.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type Claims, textClaim } from '../../domain/access/claim-rules.ts'
import { AppError, invalid } from '../../errors.ts'
import { reachByRules } from './reach-by-rules.ts'

/** What would come of a first sign-in with a sample of claims, by rules that do not hold yet. Nothing of it is kept. */
export async function tryRules(context: Context, actor: Actor, { sample, ...settings }: TrialBody): Promise<Trial> {
  requireAdministrator(actor)
  const claims = claimsIn(sample)
  const name = accountName(textClaim(claims, settings.nameClaim))
  return inTransaction(context.db, async (tx) => {
    const { roles, unitId, soldierNumber, soldier, soldierTaken, outcomes } = await reachByRules(
      tx,
      settings,
      claims,
      null,
    )
    const register = await readNameRegister(tx)
    const nameTaken = name !== null && isTaken(() => takeName(register, name))
    const subject = textClaim(claims, 'sub')
    return { subject, name, nameTaken, soldierNumber, soldier, soldierTaken, roles, unitId, outcomes }
  })
}

function isTaken(take: () => void): boolean {
  try {
    take()
    return false
  } catch (error) {
    if (error instanceof AppError) return true
    throw error
  }
}

/** The claims of a pasted sample: JSON as it is, or the middle of a token, which is read and not checked. */
function claimsIn(sample: string): Claims {
  const text = sample.trim()
  const [, middle] = /^[\w-]+\.([\w-]+)\.[\w-]*$/.exec(text) ?? []
  try {
    const claims: unknown = JSON.parse(middle === undefined ? text : Buffer.from(middle, 'base64url').toString('utf8'))
    if (typeof claims === 'object' && claims !== null && !Array.isArray(claims)) return claims as Claims
  } catch {
    // Said below.
  }
  throw invalid(
    'no-claims',
    '/sample',
    'This is neither a token nor claims as JSON, like {"sub": "x", "groups": ["a"]}.',
  )
}
