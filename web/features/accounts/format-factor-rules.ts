import type { FactorOverview } from '#contract/accounts/factors.ts'
import { ROLE_WORDS, type Role } from '../../domain/accounts/roles.ts'
import { counted, plural } from '../../words/format-number.ts'

/** The answer of the page: which roles need a second factor today. In: today, YYYY-MM-DD. */
export function formatRules({ rules }: FactorOverview, today: string): string {
  const titlesOf = (some: FactorOverview['rules']) =>
    ROLE_WORDS.filter(({ role }) => some.some((rule) => rule.role === role)).map(({ title }) => title.toLowerCase())
  const now = titlesOf(rules.filter(({ fromDay }) => fromDay <= today))
  const later = titlesOf(rules.filter(({ fromDay }) => fromDay > today))
  if (now.length === 0 && later.length === 0) return 'No role needs a second factor.'
  const parts = [
    now.length > 0 ? `needed now by ${now.join(', ')}` : null,
    later.length > 0 ? `later by ${later.join(', ')}` : null,
  ].filter((part) => part !== null)
  return `A second factor is ${parts.join('; ')}.`
}

/** How far a role is: "12 accounts, 9 of them without one". */
export function formatWithout({ roles }: FactorOverview, asked: Role): string {
  const { accounts, without } = roles.find(({ role }) => role === asked) ?? { accounts: 0, without: 0 }
  if (accounts === 0) return 'no accounts'
  const all = counted(accounts, 'account')
  if (without === 0) return `${all}, ${plural(accounts, 'with one', 'all with one')}`
  return without === accounts
    ? `${all}, ${plural(accounts, 'without one', 'none with one')}`
    : `${all}, ${without} without one`
}
