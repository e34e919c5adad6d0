import type { Session } from '#contract/session.ts'

const KEY = 'reviewstand.device-account'

/** Whose device this is: who signed in here last and has not signed out. For them the app opens without a network, to grade. */
export const deviceAccount = (): Session | null => {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? 'null') as Session | null
  } catch {
    return null
  }
}

export const rememberAccount = (session: Session): void => {
  try {
    localStorage.setItem(KEY, JSON.stringify(session))
  } catch {
    // Without storage there is no offline mode anyway.
  }
}

/** Whoever signs out is not let in again without the server; what they have not sent stays under their account. */
export const forgetAccount = (): void => {
  try {
    localStorage.removeItem(KEY)
  } catch {
    // Nothing was kept.
  }
}
