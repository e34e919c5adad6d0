import type { PlainDate } from '../calendar/plain-date.ts'

/** From this day on accounts with this role need a second factor. */
interface FactorRule {
  readonly role: string
  readonly fromDay: PlainDate
}

/**
 * From which day on an account needs a second factor: the earliest of its roles’ days. Out: that day, whether it has come
 * or not; null where none of its roles needs one.
 */
export function factorRequiredFrom(roles: readonly string[], rules: readonly FactorRule[]): PlainDate | null {
  const days = rules.filter(({ role }) => roles.includes(role)).map(({ fromDay }) => fromDay)
  return days.length === 0 ? null : days.reduce((first, day) => (day < first ? day : first))
}

/** Whether an account needs a second factor today. */
export function needsFactor(roles: readonly string[], rules: readonly FactorRule[], today: PlainDate): boolean {
  const from = factorRequiredFrom(roles, rules)
  return from !== null && from <= today
}
