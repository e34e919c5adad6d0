import { toMillionths } from '../../scoring/decimal.ts'

/** The closed band of a gauge, as decimal text; null: no limit on that side. */
export type Band = { min: string | null; max: string | null }
/** How often one value was read: the value as entered, and a whole count. */
export type ReadingCount = { value: string; count: number }
export type Side = 'low' | 'within' | 'high'

/** The limits in millionths, so that 6.0 and 6 are one number and no binary fraction is in between. */
export function bandInMillionths({ min, max }: Band): { min: number; max: number } {
  const limits = {
    min: min === null ? -Infinity : toMillionths(min),
    max: max === null ? Infinity : toMillionths(max),
  }
  if (limits.min > limits.max) throw new RangeError(`The band's min ${min} lies above its max ${max}`)
  return limits
}

/** On which side of the closed band a value in millionths lies. */
export function sideOf(value: number, limits: { min: number; max: number }): Side {
  return value < limits.min ? 'low' : value > limits.max ? 'high' : 'within'
}
