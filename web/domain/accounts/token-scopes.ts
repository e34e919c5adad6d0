import type { TokenScope } from '#access/actor.ts'

/** What a token can be for, in words, in the order of the form. */
export const SCOPE_WORDS: readonly { readonly scope: TokenScope; readonly lets: string; readonly short: string }[] = [
  { scope: 'roster:read', lets: 'Read the roster, units and absences', short: 'read the roster' },
  { scope: 'roster:write', lets: 'Enter, change and take back absences', short: 'enter absences' },
  {
    scope: 'readiness:read',
    lets: 'Read who is certified, what lapses and which retests are due',
    short: 'read readiness',
  },
  { scope: 'sheets:read', lets: 'Read grade sheets', short: 'read sheets' },
  { scope: 'sheets:write', lets: 'Send finished grade sheets', short: 'send sheets' },
  { scope: 'test-days:read', lets: 'Read test days, slots and bookings', short: 'read test days' },
  { scope: 'ceremonies:read', lets: 'Read ceremonies and who stands where', short: 'read ceremonies' },
  { scope: 'standards:read', lets: 'Read standards, certifications, arms and grades', short: 'read standards' },
]

/** What a token is for, as a list in words: "read the roster, send sheets". */
export const formatScopes = (scopes: readonly TokenScope[]): string =>
  SCOPE_WORDS.filter(({ scope }) => scopes.includes(scope))
    .map(({ short }) => short)
    .join(', ')
