import type { Account } from '#contract/accounts/accounts.ts'
import { formatMoment } from '../../words/format-moment.ts'

/** How an account stands: "signs in", "signs in, also by Guard directory", "invited, link until Sat 28 Nov, 14:00", "invited, link expired", "disabled". */
export const formatState = (
  {
    state,
    linkExpiresAt,
    linkedWith = [],
  }: Pick<Account, 'state' | 'linkExpiresAt'> & Partial<Pick<Account, 'linkedWith'>>,
  today: string,
): string => {
  if (state === 'active') return linkedWith.length > 0 ? `signs in, also by ${linkedWith.join(', ')}` : 'signs in'
  if (state === 'disabled') return 'disabled'
  return linkExpiresAt ? `invited, link until ${formatMoment(linkExpiresAt, today)}` : 'invited, link expired'
}
