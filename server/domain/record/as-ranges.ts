/** Ascending numbers as pairs of first and last without a gap between: `[1, 2, 3, 7]` is `[[1, 3], [7, 7]]`. */
export function asRanges(numbers: readonly number[]): [number, number][] {
  const ranges: [number, number][] = []
  for (const number of numbers) {
    const last = ranges.at(-1)
    if (last && last[1] === number - 1) last[1] = number
    else ranges.push([number, number])
  }
  return ranges
}
