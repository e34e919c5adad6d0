/** Is this the unit of a rate a minute, such as "steps/min"? */
export const perMinute = (unit: string): boolean => /(\/|per )\s*(min|minute)\b|\b(bpm|spm)\b/i.test(unit)

/** A break longer than this begins a new count. */
const LONGEST_GAP_MS = 2_000
/** With fewer the rate would say more about one tap than about the steps. */
export const FEWEST_TAPS = 5
const MINUTE_MS = 60_000

/**
 * The taps that belong to one count: those since the last long break.
 * In and out: when each was made, in milliseconds, in order.
 */
export const countedTaps = (taps: readonly number[]): readonly number[] => {
  const start = taps.findLastIndex((tap, place) => place === 0 || tap - taps[place - 1]! > LONGEST_GAP_MS)
  return taps.slice(Math.max(0, start))
}

/**
 * The rate a minute of somebody who taps along: the slope of a straight line through the taps (least squares), so that one
 * early or late tap hardly moves it. Null with fewer than five taps.
 */
export const cadenceOf = (taps: readonly number[]): number | null => {
  if (taps.length < FEWEST_TAPS) return null
  const middle = (taps.length - 1) / 2
  const mean = taps.reduce((sum, tap) => sum + tap, 0) / taps.length
  const along = taps.reduce((sum, tap, place) => sum + (place - middle) * (tap - mean), 0)
  const spread = taps.reduce((sum, _, place) => sum + (place - middle) ** 2, 0)
  return along <= 0 ? null : Math.round((MINUTE_MS * spread) / along)
}
