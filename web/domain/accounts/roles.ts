import type { Session } from '#contract/accounts/session.ts'

export type Role = Session['roles'][number]

/** What the roles are called, and what each lets one see and do, from the widest to the narrowest. */
export const ROLE_WORDS: readonly { role: Role; title: string; lets: string }[] = [
  { role: 'office', title: 'Training office', lets: 'sees and runs all of it, but for accounts and the record' },
  { role: 'administrator', title: 'Administrator', lets: 'accounts and the record of changes; no grades' },
  { role: 'commander', title: 'Commander', lets: 'sees the unit and all below it; suspends and lifts' },
  { role: 'leader', title: 'Leader', lets: 'sees the unit and all below it; plans its ceremonies' },
  { role: 'sponsor', title: 'Sponsor', lets: 'sees the candidates they sponsor now' },
  { role: 'grader', title: 'Grader', lets: 'sees the candidates booked with them, and sends in sheets' },
  { role: 'soldier', title: 'Soldier', lets: 'sees their own record' },
]

/** "Training office, administrator": roles as a list has them. */
export const listRoles = (roles: readonly Role[]): string => {
  const titles = ROLE_WORDS.filter(({ role }) => roles.includes(role)).map(({ title }) => title)
  return titles.map((title, at) => (at === 0 ? title : title.toLowerCase())).join(', ')
}
