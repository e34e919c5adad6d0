const WANTED = 8
const [FEWEST, MOST] = [4, 20]

/**
 * The width of a histogram's bins: 1, 2 or 5 times a power of ten, so that its edges read well, giving about eight
 * bins.
 *
 * In: a span in whole units (above 0), and whether bins must fill it exactly. Out: the width in the same units whose
 * number of bins comes nearest to eight by ratio; where such a width cannot fill the span with 4 to 20 bins, a tenth
 * of the span if that is a whole number, else the nearest there is (a width of 1 fills any span).
 * Example: exact spans of 10, 15 and 61 million give widths of 1, 1 and 6.1 million.
 */
export function binWidth(span: number, exact: boolean): number {
  if (!(Number.isSafeInteger(span) && span > 0))
    throw new RangeError(`binWidth: span must be a whole number above 0, not ${span}`)
  let best = 1
  for (let power = 1; power <= span; power *= 10) {
    for (const width of [power, 2 * power, 5 * power]) {
      if (width > span || (exact && span % width !== 0)) continue
      if (distance(span / width) <= distance(span / best)) best = width
    }
  }
  const bins = span / best
  return exact && span % 10 === 0 && (bins < FEWEST || bins > MOST) ? span / 10 : best
}

function distance(bins: number): number {
  return Math.abs(Math.log(bins / WANTED))
}
