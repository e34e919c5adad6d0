import { existingUnits } from '../../access/db/units.db.ts'
import type { Trial } from '../../contract/sign-on/providers.ts'
import type { Transaction } from '../../db/client.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Role } from '../../domain/access/actor.ts'
import { applyClaimRules, type ClaimRule, type Claims, textClaim } from '../../domain/access/claim-rules.ts'
import { readSoldierByNumber } from '../db/identities.db.ts'

/** What a provider's settings say of the roles of an account. */
export interface RuleSettings {
  readonly rules: readonly ClaimRule[]
  readonly makesAdministrators: boolean
  readonly soldierClaim: string | null
}

/** An account that is there, with the soldier it belongs to. */
interface Present {
  readonly accountId: string
  readonly soldierId: string | null
}

export interface ReachByRules {
  readonly roles: Role[]
  readonly unitId: string | null
  readonly soldierId: string | null
  readonly soldierNumber: string | null
  readonly soldier: string | null
  /** The soldier has another account, so this one is not theirs. */
  readonly soldierTaken: boolean
  readonly outcomes: Trial['outcomes']
}

const OF_A_SOLDIER: readonly Role[] = ['sponsor', 'grader', 'soldier']

/**
 * What rules and roster make of somebody's claims. A soldier is found by the roster number in a claim, once: an account that
 * belongs to one stays theirs. A role of a soldier is given to nobody else. In: the account it is for; null: a new one.
 */
export async function reachByRules(
  tx: Transaction,
  { rules, makesAdministrators, soldierClaim }: RuleSettings,
  claims: Claims,
  present: Present | null,
): Promise<ReachByRules> {
  const units = await existingUnits(
    tx,
    rules.flatMap(({ unitId }) => unitId ?? []),
  )
  const sound = rules.filter(({ unitId }) => unitId === null || units.includes(unitId))
  const given = applyClaimRules(sound, claims, makesAdministrators)
  const soldierNumber = soldierClaim === null ? null : textClaim(claims, soldierClaim)
  const found = soldierNumber === null ? null : await soldierOf(tx, soldierNumber, present)
  const soldierId = present?.soldierId ?? (found?.isTaken ? null : (found?.id ?? null))
  const mayHave = (role: Role) => soldierId !== null || !OF_A_SOLDIER.includes(role)
  return {
    roles: given.roles.filter(mayHave),
    unitId: given.unitId,
    soldierId,
    soldierNumber,
    soldier: found?.soldier ?? null,
    soldierTaken: found?.isTaken ?? false,
    outcomes: rules.map((rule) => {
      const outcome = given.outcomes[sound.indexOf(rule)]
      if (outcome === undefined) return 'no-unit'
      return outcome === 'given' && !mayHave(rule.role) ? 'no-soldier' : outcome
    }),
  }
}

/** The soldier of a roster number, who is not merged away or removed while the account is made theirs. */
async function soldierOf(tx: Transaction, rosterNumber: string, present: Present | null) {
  const found = await readSoldierByNumber(tx, rosterNumber, present?.accountId ?? null)
  return found && (await shareSoldiers(tx, [found.id])).length > 0 ? found : null
}
