import type { OwnFactors } from '#contract/accounts/factors.ts'
import { formatDay } from '../../../words/format-day.ts'
import { counted } from '../../../words/format-number.ts'

const FEW = 3

/** How one's second factors stand, in a sentence or two. In: today, YYYY-MM-DD. */
export function formatFactors({ app, passkeys, recoveryCodes, requiredFrom }: OwnFactors, today: string): string {
  const has = app !== null || passkeys.length > 0
  if (has) {
    const left = `${counted(recoveryCodes, 'recovery code')} left`
    return recoveryCodes <= FEW
      ? `Signing in takes the password and one of these. Only ${left}: make new ones and print them.`
      : `Signing in takes the password and one of these; ${left}.`
  }
  const why = 'With one, a password that somebody else has learned does not let them in.'
  if (requiredFrom === null) return `You have none. ${why}`
  return requiredFrom <= today
    ? `You have none, and your roles need one. ${why}`
    : `You have none, and your roles need one from ${formatDay(requiredFrom, today)} on. ${why}`
}
