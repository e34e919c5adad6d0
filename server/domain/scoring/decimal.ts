const DECIMALS = 6

/**
 * A decimal in millionths, exact for up to nine digits before the point.
 * In: text such as "5.25", at most six decimals. Out: a whole number, 5250000 for it. Throws a RangeError otherwise.
 */
export function toMillionths(text: string): number {
  const match = /^(-?)(\d{1,9})(?:\.(\d{1,6}))?$/.exec(text)
  if (!match) throw new RangeError(`toMillionths: "${text}" is not a decimal with at most ${DECIMALS} decimals`)
  const [, sign, whole, fraction = ''] = match
  const size = Number(whole) * 10 ** DECIMALS + Number(fraction.padEnd(DECIMALS, '0'))
  return sign === '-' ? -size : size
}
