export type Role = 'leader' | 'sponsor' | 'grader' | 'commander' | 'office' | 'administrator' | 'soldier'

/** Who acts: an account with its roles, the soldier it belongs to, and the unit at the top of what it leads. */
export interface Actor {
  readonly accountId: string
  readonly name: string
  readonly roles: readonly Role[]
  readonly soldierId: string | null
  readonly unitId: string | null
  /** Address the request came from, for the record; null where it came from none. */
  readonly address: string | null
}
