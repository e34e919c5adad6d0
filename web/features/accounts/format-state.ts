import type { Account } from '#contract/accounts/accounts.ts'
import { formatMoment } from '../../words/format-moment.ts'

/** How an account stands: "signs in", "invited, link until Sat 28 Nov, 14:00", "invited, link ran out", "disabled". */
export const formatState = (
  { state, linkExpiresAt }: Pick<Account, 'state' | 'linkExpiresAt'>,
  today: string,
): string => {
  if (state === 'active') return 'signs in'
  if (state === 'disabled') return 'disabled'
  return linkExpiresAt ? `invited, link until ${formatMoment(linkExpiresAt, today)}` : 'invited, link ran out'
}
