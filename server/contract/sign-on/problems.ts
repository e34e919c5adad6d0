/** Why somebody came back from a provider without what they went for; the address of the page carries it. */
export const SIGN_ON_PROBLEMS = [
  'begin-again',
  'other-provider',
  'provider-refused',
  'provider-silent',
  'provider-wrong',
  'client-refused',
  'clock-off',
  'switched-off',
  'no-account',
  'no-role',
  'no-name',
  'name-taken',
  'soldier-taken',
  'account-closed',
  'linked-elsewhere',
  'session-ended',
] as const

export type SignOnProblem = (typeof SIGN_ON_PROBLEMS)[number]
