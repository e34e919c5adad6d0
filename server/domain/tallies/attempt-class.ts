/** First, second, or third and later attempt. */
export type AttemptClass = 1 | 2 | 3

/**
 * Which attempt a counted sheet is, as figures tell attempts apart: 1 for a first attempt, else the least number it has in
 * a certification, 3 standing for all later ones. A retest in a standard that no certification numbers is a second one.
 */
export function attemptClass(kind: 'first' | 'retest', attempts: readonly { readonly number: number }[]): AttemptClass {
  if (kind === 'first') return 1
  return Math.min(...attempts.map(({ number }) => number), Infinity) >= 3 && attempts.length > 0 ? 3 : 2
}
