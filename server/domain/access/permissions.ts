import type { Actor, Role } from './actor.ts'

/** What accounts may do beside looking. */
export type Action =
  | 'manage-people'
  | 'manage-standards'
  | 'carry-over-awards'
  | 'decide-sheets'
  | 'amend-sheets'
  | 'confirm-amendments'
  | 'decide-for-want-of-a-clerk'
  | 'suspend'
  | 'plan-ceremonies'
  | 'plan-test-days'
  | 'run-test-days'
  | 'coach'
  | 'see-findings'
  | 'read-record'
  | 'manage-accounts'
  | 'keep-backups'

const ALLOWED: Record<Action, readonly Role[]> = {
  'manage-people': ['office'],
  'manage-standards': ['office'],
  'carry-over-awards': ['office'],
  'decide-sheets': ['office'],
  'amend-sheets': ['office'],
  'confirm-amendments': ['office', 'commander'],
  'decide-for-want-of-a-clerk': ['commander'],
  suspend: ['office', 'commander'],
  'plan-ceremonies': ['office', 'leader', 'commander'],
  'plan-test-days': ['office'],
  'run-test-days': ['office', 'grader'],
  coach: ['office', 'sponsor'],
  'see-findings': ['office', 'leader', 'commander', 'sponsor'],
  'read-record': ['administrator'],
  'manage-accounts': ['administrator'],
  'keep-backups': ['administrator'],
}

/** Whether an account may do this at all; on what, is a matter of scope. */
export function can(actor: Actor, action: Action): boolean {
  return actor.roles.some((role) => ALLOWED[action].includes(role))
}

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
