import type { Actor, Role } from './actor.ts'

/** What an account may be let in for. What it may do so on, is a matter of scope. */
export type Permission =
  | 'see-grades'
  | 'see-people'
  | 'see-soldiers'
  | 'enter-sheets'
  | 'manage-people'
  | 'manage-standards'
  | 'carry-over-awards'
  | 'decide-sheets'
  | 'amend-sheets'
  | 'confirm-amendments'
  | 'decide-for-want-of-a-clerk'
  | 'suspend'
  | 'approve-awards'
  | 'plan-ceremonies'
  | 'plan-test-days'
  | 'run-test-days'
  | 'coach'
  | 'see-findings'
  | 'read-record'
  | 'manage-accounts'
  | 'keep-backups'
  | 'keep-mail'

const ALLOWED: Record<Permission, readonly Role[]> = {
  'see-grades': ['office', 'commander', 'leader', 'sponsor', 'grader', 'soldier'],
  'see-people': ['office', 'commander', 'leader'],
  'see-soldiers': ['office', 'commander', 'leader', 'sponsor', 'soldier'],
  'enter-sheets': ['office', 'grader', 'sponsor'],
  'manage-people': ['office'],
  'manage-standards': ['office'],
  'carry-over-awards': ['office'],
  'decide-sheets': ['office'],
  'amend-sheets': ['office'],
  'confirm-amendments': ['office', 'commander'],
  'decide-for-want-of-a-clerk': ['commander'],
  suspend: ['office', 'commander'],
  'approve-awards': ['commander'],
  'plan-ceremonies': ['office', 'leader', 'commander'],
  'plan-test-days': ['office'],
  'run-test-days': ['office', 'grader'],
  coach: ['office', 'sponsor'],
  'see-findings': ['office', 'leader', 'commander', 'sponsor'],
  'read-record': ['administrator'],
  'manage-accounts': ['administrator'],
  'keep-backups': ['administrator'],
  'keep-mail': ['administrator'],
}

/** Whether any of somebody's roles has a permission. The server asks it of accounts, the browser of the session. */
export function can({ roles }: Pick<Actor, 'roles'>, permission: Permission): boolean {
  return roles.some((role) => ALLOWED[permission].includes(role))
}

/** The roles that have a permission. */
export const rolesWith = (permission: Permission): readonly Role[] => ALLOWED[permission]

/** Whether an account may take out what is held about a soldier: the office about anybody, everybody about themselves. */
export function canExtract(actor: Actor, soldierId: string): boolean {
  return actor.roles.includes('office') || actor.soldierId === soldierId
}

/** Whether an account may send this sheet: the office any, a grader those they graded, a sponsor practice they led. */
export function canSubmit(
  actor: Actor,
  sheet: { readonly purpose: 'test' | 'practice'; readonly graderId: string },
): boolean {
  if (actor.roles.includes('office')) return true
  if (actor.soldierId === null || sheet.graderId !== actor.soldierId) return false
  return actor.roles.includes('grader') || (actor.roles.includes('sponsor') && sheet.purpose === 'practice')
}
