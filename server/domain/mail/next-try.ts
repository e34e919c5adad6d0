const MINUTE_MS = 60_000

/** Minutes from one attempt to the next; each is longer, since what lasts an hour may well last a day. */
const WAITS = [1, 5, 15, 60, 180, 360, 720]

/** News of so long ago is none. */
const GIVEN_UP_AFTER_MS = 3 * 24 * 60 * MINUTE_MS

/**
 * When a mail that could not be delivered is tried again. In: the attempts made, the moment of the last, when it was due first.
 * Out: milliseconds since 1970; null: it is given up.
 */
export function nextTry(attempts: number, at: number, since: number): number | null {
  const wait = WAITS[attempts - 1]
  return wait === undefined || isTooOld(at, since) ? null : at + wait * MINUTE_MS
}

/** Whether a mail due first at `since` is no longer worth sending. */
export const isTooOld = (at: number, since: number): boolean => at - since > GIVEN_UP_AFTER_MS

/** How long a mail server that cannot be used is left alone: as long as a mail is, and never more than half an hour. */
export const serverRestMs = (failures: number): number =>
  Math.min(WAITS[Math.min(failures, WAITS.length) - 1] ?? 0, 30) * MINUTE_MS
