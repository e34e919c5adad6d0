import type { Provider } from '#contract/sign-on/providers.ts'
import { counted, plural } from '../../words/format-number.ts'

/** "Two providers sign people in": how many are on. */
export function formatProviders(providers: readonly Pick<Provider, 'enabled'>[]): string {
  const on = providers.filter(({ enabled }) => enabled).length
  if (providers.length === 0) return 'No provider is set up yet.'
  if (on === 0) return 'All providers are switched off.'
  return `${counted(on, 'provider')} ${plural(on, 'signs', 'sign')} people in.`
}

/** "3 accounts are linked; new people get an account by 2 rules, at each sign-in": what a provider does. */
export function formatProvider({ linked, makesAccounts, rulesEachTime, rules, enabled }: Provider): string {
  const accounts =
    linked === 0 ? 'No account is linked' : `${counted(linked, 'account')} ${plural(linked, 'is', 'are')} linked`
  const when = rulesEachTime ? 'which hold at each sign-in' : 'which hold at the first sign-in'
  const made = makesAccounts
    ? `new people get an account by ${counted(rules.length, 'rule')}, ${when}`
    : 'nobody gets a new account by it'
  return `${enabled ? '' : 'Switched off. '}${accounts}; ${made}.`
}
