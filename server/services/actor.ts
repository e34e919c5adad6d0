import type { ROLES } from '../contract/session.ts'

export type Role = (typeof ROLES)[number]

/** Who acts: every service takes one. */
export interface Actor {
  readonly accountId: string
  readonly name: string
  readonly roles: readonly Role[]
  readonly soldierId: string | null
  /** Top of what a leader or commander sees. */
  readonly unitId: string | null
}
