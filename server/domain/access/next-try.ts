/** How wrong passwords make one wait. */
export interface TryLimits {
  /** So many are free; each one more doubles the wait, from one second on. */
  readonly free: number
  /** The wait never grows longer than this, so that nobody is locked out for good. */
  readonly longestSeconds: number
  /** Time takes back one wrong try in so many seconds. */
  readonly forgivenInSeconds: number
}

/** Wrong tries so far, less what time has taken back; times in milliseconds since 1970. */
export interface Tries {
  readonly level: number
  readonly countedAt: number
  /** Until when no try is made; null: one may be made at once. */
  readonly waitUntil: number | null
}

/** Beyond the free tries the level grows no further than this, so that an attack is forgiven soon after it ends. */
const MOST_BEYOND_FREE = 12

/**
 * Counts one more try as wrong, which is taken back when it turns out right. In: the tries so far, limits,
 * now in milliseconds. Out: the seconds still to wait, in which case this one is neither made nor counted, or the tries
 * with this one. The wait after it is 2^(k−1) seconds, k the whole number of tries beyond the free ones, rounded up.
 */
export function nextTry(
  tries: Tries,
  limits: TryLimits,
  now: number,
): { readonly waitSeconds: number } | { readonly tries: Tries } {
  if (tries.waitUntil !== null && tries.waitUntil > now) {
    return { waitSeconds: Math.ceil((tries.waitUntil - now) / 1000) }
  }
  const forgiven = Math.max(0, now - tries.countedAt) / 1000 / limits.forgivenInSeconds
  const level = Math.min(Math.max(0, tries.level - forgiven) + 1, limits.free + MOST_BEYOND_FREE)
  const beyond = Math.ceil(level - limits.free)
  const seconds = beyond > 0 ? Math.min(limits.longestSeconds, 2 ** (beyond - 1)) : 0
  return { tries: { level, countedAt: now, waitUntil: seconds > 0 ? now + seconds * 1000 : null } }
}
