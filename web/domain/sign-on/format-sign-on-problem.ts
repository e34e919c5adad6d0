import type { SignOnProblem } from '#contract/sign-on/problems.ts'

const WORDS: Record<SignOnProblem, (provider: string) => string> = {
  'begin-again': () => 'That took too long, or was used before. Begin again.',
  'other-provider': (name) =>
    `The answer did not come from ${name}. Begin again, and tell an administrator if it happens twice.`,
  'provider-refused': (name) =>
    `${name} did not sign you in. Try again there; if you should have a place in it, ask whoever runs it.`,
  'provider-silent': (name) => `${name} did not answer. Try again later, or sign in with your password.`,
  'provider-wrong': (name) =>
    `What ${name} answered cannot be trusted, so you are not signed in. Tell an administrator.`,
  'client-refused': (name) => `${name} refused this server. An administrator has to check its client id and secret.`,
  'clock-off': (name) => `The clocks of ${name} and this server differ. An administrator has to set them right.`,
  'switched-off': (name) =>
    `Signing in by ${name} was switched off. Sign in with your password, or ask an administrator.`,
  'no-account': (name) =>
    `${name} knows you, but no account here is linked with you. Sign in with your password and link it under My account, or ask an administrator for one.`,
  'no-role': (name) => `${name} knows you, but nothing it says of you gives you a role here. Ask an administrator.`,
  'no-name': (name) => `${name} does not say a name that an account could have. Tell an administrator.`,
  'name-taken': () =>
    'There is an account with your name, or one like it. If it is yours, sign in with its password and link it under My account; if not, ask an administrator.',
  'soldier-taken': () =>
    'The soldier you are on the roster has an account. Sign in with its password and link it under My account.',
  'account-closed': () => 'Your account is closed. Ask an administrator.',
  'linked-elsewhere': (name) =>
    `Who signed in at ${name} is linked with another account. Unlink that one first, or sign in there as yourself.`,
  'session-ended': () => 'You were signed out meanwhile, so nothing was linked. Sign in and try again.',
}

/** Why somebody came back from a provider without what they went for; null where the address says nothing of it. */
export function formatSignOnProblem(code: string | null, provider: string | undefined): string | null {
  if (code === null || !Object.hasOwn(WORDS, code)) return null
  return WORDS[code as SignOnProblem](provider ?? 'The provider')
}
