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
  /** The token of a script that acts for the account; left out: the person does. */
  readonly token?: ActingToken
}

/** What a token of a script may do: of what, and whether it reads or writes. */
export type TokenScope =
  | 'roster:read'
  | 'roster:write'
  | 'readiness:read'
  | 'sheets:read'
  | 'sheets:write'
  | 'test-days:read'
  | 'ceremonies:read'
  | 'standards:read'

/** A token in use: it reaches no further than its unit (null: as far as its owner). */
export interface ActingToken {
  readonly id: string
  readonly unitId: string | null
}
