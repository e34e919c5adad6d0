/** Stops a probability that is none: it lies in [0, 1]. Throws a RangeError with the name otherwise. */
export function requireProbability(value: number, name: string): void {
  if (!(value >= 0 && value <= 1)) throw new RangeError(`${name} must lie between 0 and 1, not ${value}`)
}
