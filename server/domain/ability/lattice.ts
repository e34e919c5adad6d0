/**
 * Points spread evenly over the unit cube, always the same: the i-th is the fractional part of (i + ½) times powers of 1/φ, φ
 * being the positive root of x^(d+1) = x + 1.
 * Source: H. Niederreiter (1992), *Random Number Generation and Quasi-Monte Carlo Methods*, ch. 3, on sequences of Kronecker
 * (multiples of irrational numbers); the choice of the numbers is common practice.
 * Points come in pairs that mirror each other in the middle, so that whatever is odd about it integrates to nothing.
 * In: how many points (even), how many dimensions. Out: by point, dimensions running; each in (0, 1).
 */
export function lattice(points: number, dimensions: number): Float64Array {
  const key = `${points}/${dimensions}`
  const made = known.get(key)
  if (made) return made
  let root = 2
  for (let step = 0; step < 60; step++) root = (1 + root) ** (1 / (dimensions + 1))
  const out = new Float64Array(points * dimensions)
  for (let i = 0; i < points / 2; i++) {
    for (let j = 0; j < dimensions; j++) {
      const place = ((i + 0.5) * root ** -(j + 1) + 0.5) % 1
      out[2 * i * dimensions + j] = place
      out[(2 * i + 1) * dimensions + j] = 1 - place
    }
  }
  if (known.size > MOST_KEPT) known.clear()
  known.set(key, out)
  return out
}

const MOST_KEPT = 40
const known = new Map<string, Float64Array>()
