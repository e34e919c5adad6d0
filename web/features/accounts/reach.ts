import type { AccountBody } from '#contract/accounts/accounts.ts'

/** What a form about an account's reach holds. */
export interface Reach extends AccountBody {
  /** Roster number and name of the soldier, as shown. */
  soldier: string | null
}

export const NO_REACH: Reach = { roles: [], soldierId: null, unitId: null, soldier: null }

/** What of it the server is sent. */
export const toBody = ({ roles, soldierId, unitId }: Reach): AccountBody => ({ roles, soldierId, unitId })
