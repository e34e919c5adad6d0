const SPACE = '\u00a0'

/** A share from 0 to 1 as whole percent: "71 %"; what is neither none nor all never looks like it ("under 1 %"). */
export const formatShare = (share: number): string => {
  const percent = Math.round(share * 100)
  if (percent === 0 && share > 0) return `under 1${SPACE}%`
  if (percent === 100 && share < 1) return `over 99${SPACE}%`
  return `${percent}${SPACE}%`
}

/** An interval of shares: "58 to 81 %". */
export const formatShares = ({ low, high }: { low: number; high: number }): string =>
  `${Math.round(low * 100)} to ${Math.round(high * 100)}${SPACE}%`

/** A coefficient to two places, with a real minus sign: "0.72", "−0.05". */
export const formatCoefficient = (value: number): string =>
  value
    .toFixed(2)
    .replace(/^-(?!0\.00$)/, '−')
    .replace(/^-/, '')

/** An interval of coefficients: "0.63 to 0.80". */
export const formatCoefficients = ({ low, high }: { low: number; high: number }): string =>
  `${formatCoefficient(low)} to ${formatCoefficient(high)}`
