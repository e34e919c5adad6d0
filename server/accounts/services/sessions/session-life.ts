const HOUR_MS = 3_600_000

/** A session ends when it was not used for so long: a duty day with what lies around it. */
export const IDLE_MS = 12 * HOUR_MS

/** A session ends after so long however much it is used; NIST SP 800-63B-4 section 2.1.3 allows thirty days. */
export const LONGEST_MS = 7 * 24 * HOUR_MS

/** A device that was not signed in with for so long is a stranger again. */
export const DEVICE_MS = 90 * 24 * HOUR_MS

/** Whoever proved who they are need not do so again for so long, in the same session. */
export const CONFIRMED_MS = 10 * 60_000

/** Sessions seen or made before these times have expired. */
export const expiredBefore = (now: Date): { seenBefore: Date; createdBefore: Date } => ({
  seenBefore: new Date(now.getTime() - IDLE_MS),
  createdBefore: new Date(now.getTime() - LONGEST_MS),
})
