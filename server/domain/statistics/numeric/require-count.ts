/**
 * Stops a count that is none: counts are whole numbers from 0, and a part is no more than its whole.
 * In: the value, the name the message uses, the whole (none: no upper end). Throws a RangeError otherwise.
 */
export function requireCount(value: number, name: string, whole = Number.MAX_SAFE_INTEGER): void {
  if (!Number.isSafeInteger(value) || value < 0)
    throw new RangeError(`${name} must be a whole number from 0, not ${value}`)
  if (value > whole) throw new RangeError(`${name} must be at most ${whole}, not ${value}`)
}
