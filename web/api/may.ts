import type { Session } from '#contract/accounts/session.ts'

type Role = Session['roles'][number]

/** What a page or link is for. The server decides; this only keeps away what it would refuse. */
export type Errand =
  | 'see grades'
  | 'see people'
  | 'see soldiers'
  | 'manage people'
  | 'manage standards'
  | 'suspend'
  | 'enter sheets'
  | 'decide sheets'
  | 'amend sheets'
  | 'confirm amendments'
  | 'plan test days'
  | 'see findings'
  | 'plan ceremonies'
  | 'read the record'
  | 'manage accounts'
  | 'keep backups'

const ROLES: Record<Errand, readonly Role[]> = {
  'see grades': ['office', 'commander', 'leader', 'sponsor', 'grader', 'soldier'],
  'see people': ['office', 'commander', 'leader'],
  'see soldiers': ['office', 'commander', 'leader', 'sponsor', 'soldier'],
  'manage people': ['office'],
  'manage standards': ['office'],
  suspend: ['office', 'commander'],
  'enter sheets': ['office', 'grader', 'sponsor'],
  'decide sheets': ['office'],
  'amend sheets': ['office'],
  'confirm amendments': ['office', 'commander'],
  'plan test days': ['office'],
  'read the record': ['administrator'],
  'manage accounts': ['administrator'],
  'keep backups': ['administrator'],
  'plan ceremonies': ['office', 'leader', 'commander'],
  'see findings': ['office', 'leader', 'commander', 'sponsor'],
}

/** Whether an account with these roles is let in on an errand. */
export const may = (roles: readonly Role[], errand: Errand): boolean =>
  roles.some((role) => ROLES[errand].includes(role))

/** The roles that are let in on an errand. */
export const rolesLetIn = (errand: Errand): readonly Role[] => ROLES[errand]
