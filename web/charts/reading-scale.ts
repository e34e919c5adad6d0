/**
 * The range that holds a gauge's band and all its readings with some air, in round numbers.
 * In: the band's limits (null: none) and readings. Out: from < to, and the ticks between them.
 */
export const readingScale = (
  limits: readonly (number | null)[],
  values: readonly number[],
): { from: number; to: number; ticks: number[] } => {
  const all = [...limits.filter((limit) => limit !== null), ...values]
  const low = Math.min(...all)
  const high = Math.max(...all)
  const span = all.length === 0 ? 1 : Math.max(high - low, Math.abs(high) * 0.1, 1)
  const step = niceStep(span / 5)
  const from = Math.floor((all.length ? low : 0) / step - 0.5) * step
  const to = Math.ceil((all.length ? high : 1) / step + 0.5) * step
  const ticks = Array.from({ length: Math.round((to - from) / step) + 1 }, (_, index) => tidy(from + index * step))
  return { from: tidy(from), to: tidy(to), ticks }
}

const niceStep = (rough: number): number => {
  const power = 10 ** Math.floor(Math.log10(rough))
  return ([1, 2, 5, 10].find((step) => step * power >= rough) ?? 10) * power
}

/** Without the dust of binary fractions. */
const tidy = (value: number): number => Number(value.toFixed(6))
