import type { InvitationBody } from '#contract/accounts/accounts.ts'
import type { SoldierWithout } from '#contract/accounts/several.ts'
import type { Role } from '../../../domain/accounts/roles.ts'

/** The roles that are given to many at once; the wider ones are given one by one. */
export const ROLES_FOR_MANY = ['soldier', 'sponsor', 'grader', 'leader'] as const satisfies readonly Role[]

/** An account as it is about to be made. */
export interface DraftAccount {
  readonly soldier: SoldierWithout
  readonly name: string
  readonly roles: readonly Role[]
}

/** What somebody is named as, they can be let in for; everybody sees their own record. */
export const draftAccount = (soldier: SoldierWithout, name: string): DraftAccount => {
  const named: Partial<Record<Role, boolean>> = { soldier: true, sponsor: soldier.isSponsor, grader: soldier.isGrader }
  return { soldier, name, roles: ROLES_FOR_MANY.filter((role) => named[role]) }
}

export const toggledRole = (draft: DraftAccount, role: Role): DraftAccount => ({
  ...draft,
  roles: ROLES_FOR_MANY.filter((each) => (each === role) !== draft.roles.includes(each)),
})

/** What the server is sent of it: a leader is over the unit they are in. */
export const toInvitation = ({ soldier, name, roles }: DraftAccount): InvitationBody => ({
  name,
  roles: [...roles],
  soldierId: soldier.id,
  unitId: roles.includes('leader') ? soldier.unitId : null,
})
