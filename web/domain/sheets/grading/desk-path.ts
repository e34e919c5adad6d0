import type { Session } from '#contract/accounts/session.ts'
import { addressTo, paths } from '../../../paths.ts'

/** Where somebody who grades comes from: a grader's list of the day, else the desk of a sponsor. */
export const deskPath = ({ roles }: Pick<Session, 'roles'>): string =>
  addressTo(paths.desk, { role: roles.includes('grader') ? 'grader' : 'sponsor' })
