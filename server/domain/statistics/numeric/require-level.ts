/** Stops a confidence level that is none: it lies strictly between 0 and 1. Throws a RangeError. */
export function requireLevel(level: number): void {
  if (!(level > 0 && level < 1)) throw new RangeError(`The confidence level must lie between 0 and 1, not ${level}`)
}
