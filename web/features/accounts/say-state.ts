import type { Account } from '#contract/accounts/accounts.ts'
import { sayMoment } from '../../words/say-moment.ts'

/** How an account stands: "signs in", "invited, link until Sat 28 Nov, 14:00", "invited, link ran out", "disabled". */
export const sayState = ({ state, linkExpiresAt }: Pick<Account, 'state' | 'linkExpiresAt'>, today: string): string => {
  if (state === 'active') return 'signs in'
  if (state === 'disabled') return 'disabled'
  return linkExpiresAt ? `invited, link until ${sayMoment(linkExpiresAt, today)}` : 'invited, link ran out'
}
