import { existingUnits } from '../../../access/db/units.db.ts'
import type { AccountBody } from '../../../contract/accounts/accounts.ts'
import type { Transaction } from '../../../db/client.ts'
import { shareSoldiers } from '../../../db/locks.db.ts'
import type { Role } from '../../../domain/access/actor.ts'
import { conflict, invalid } from '../../../errors.ts'
import { isSoldierTaken } from '../../db/account-changes.db.ts'

/** What these roles may see hangs on the unit, or on the soldier; without one they would see nothing. */
const OVER_A_UNIT: readonly Role[] = ['leader', 'commander']
const OF_A_SOLDIER: readonly Role[] = ['sponsor', 'grader', 'soldier']

/**
 * Refuses roles that lack their unit or soldier, units and soldiers that are not there, and a soldier who has an account
 * already. In: the account it is for; null: one that is not yet there. Accounts are locked.
 */
export async function checkReach(
  tx: Transaction,
  accountId: string | null,
  { roles, soldierId, unitId }: AccountBody,
): Promise<void> {
  const leads = roles.find((role) => OVER_A_UNIT.includes(role))
  if (leads && unitId === null) {
    throw invalid('unit-missing', '/unitId', `Choose the unit that the ${leads} is over, with all below it.`)
  }
  const isSoldier = roles.find((role) => OF_A_SOLDIER.includes(role))
  if (isSoldier && soldierId === null) {
    throw invalid('soldier-missing', '/soldierId', `Choose the soldier on the roster who is the ${isSoldier}.`)
  }
  if (unitId !== null && (await existingUnits(tx, [unitId])).length === 0) {
    throw invalid('unknown-unit', '/unitId', 'There is no such unit; choose one of the tree.')
  }
  if (soldierId === null) return
  if ((await shareSoldiers(tx, [soldierId])).length === 0) {
    throw invalid('unknown-person', '/soldierId', 'Nobody on the roster has this id; choose a soldier.')
  }
  if (await isSoldierTaken(tx, soldierId, accountId)) {
    throw conflict('soldier-has-account', 'This soldier has an account already. Change the roles of that one.')
  }
}
