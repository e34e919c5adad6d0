import type { Session } from '#contract/accounts/session.ts'

/** Where somebody who grades comes from: a grader's list of the day, else the desk of a sponsor. */
export const deskPath = ({ roles }: Pick<Session, 'roles'>): string =>
  roles.includes('grader') ? '/desk/grader' : '/desk/sponsor'
