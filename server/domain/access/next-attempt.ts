/** How wrong passwords make one wait. */
export interface AttemptLimits {
  /** So many are free; each one more doubles the wait, from one second on. */
  readonly free: number
  /** The wait never grows longer than this, so that nobody is locked out for good. */
  readonly longestSeconds: number
  /** Time takes back one wrong attempt in so many seconds. */
  readonly forgivenInSeconds: number
}

/** Wrong attempts so far, less what time has taken back; times in milliseconds since 1970. */
export interface WrongAttempts {
  readonly level: number
  readonly countedAt: number
  /** Until when no attempt is made; null: one may be made at once. */
  readonly waitUntil: number | null
}

/** Beyond the free attempts the level grows no further than this, so that an attack is forgiven soon after it ends. */
const MOST_BEYOND_FREE = 12

/**
 * Counts one more attempt as wrong, which is taken back when it turns out right. In: the attempts so far, limits,
 * now in milliseconds. Out: the seconds still to wait, in which case this one is neither made nor counted, or the attempts
 * with this one. The wait after it is 2^(k−1) seconds, k the whole number of attempts beyond the free ones, rounded up.
 */
export function nextAttempt(
  attempts: WrongAttempts,
  limits: AttemptLimits,
  now: number,
): { readonly waitSeconds: number } | { readonly attempts: WrongAttempts } {
  if (attempts.waitUntil !== null && attempts.waitUntil > now) {
    return { waitSeconds: Math.ceil((attempts.waitUntil - now) / 1000) }
  }
  const forgiven = Math.max(0, now - attempts.countedAt) / 1000 / limits.forgivenInSeconds
  const level = Math.min(Math.max(0, attempts.level - forgiven) + 1, limits.free + MOST_BEYOND_FREE)
  const beyond = Math.ceil(level - limits.free)
  const seconds = beyond > 0 ? Math.min(limits.longestSeconds, 2 ** (beyond - 1)) : 0
  return { attempts: { level, countedAt: now, waitUntil: seconds > 0 ? now + seconds * 1000 : null } }
}
