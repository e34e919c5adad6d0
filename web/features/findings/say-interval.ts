interface Rate {
  n: number
  interval: { low: number; high: number } | null
  few: boolean
}

/** How sure a rate is: "31 to 48 in 100", or "few" where it says next to nothing, or '' without data. */
export const sayInterval = ({ n, interval, few }: Rate): string => {
  if (n === 0) return ''
  if (few || !interval) return 'few'
  return `${Math.round(100 * interval.low)} to ${Math.round(100 * interval.high)} in 100`
}
