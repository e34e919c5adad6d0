/**
 * The width of a histogram's bins: 1, 2 or 5 times a power of ten, so that its edges read well.
 *
 * In: a span in whole units (above 0), the number of bins wanted, and whether bins must fill the span exactly. Out: the
 * width in the same units whose number of bins comes nearest to the wanted one (by ratio; the wider of two equally near).
 * A width of 1 fills any span, so there always is one. Example: a span of 10 with 8 wanted and exact: 1 (10 bins).
 */
export function binWidth(span: number, wanted: number, exact: boolean): number {
  if (!(Number.isSafeInteger(span) && span > 0))
    throw new RangeError(`binWidth: span must be a whole number above 0, not ${span}`)
  let best = 1
  for (let power = 1; power <= span; power *= 10) {
    for (const width of [power, 2 * power, 5 * power]) {
      if (width > span || (exact && span % width !== 0)) continue
      if (distance(span / width, wanted) <= distance(span / best, wanted)) best = width
    }
  }
  return best
}

function distance(bins: number, wanted: number): number {
  return Math.abs(Math.log(bins / wanted))
}
