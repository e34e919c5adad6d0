/**
 * x ln(x / mean) + mean − x, without the loss of digits near x = mean: there by the series in v = (x − mean)/(x +
 * mean), (x − mean) v + 2 x (v³/3 + v⁵/5 + …).
 * Source: C. Loader (2000), "Fast and accurate computation of binomial probabilities".
 * In: x, mean > 0. Out: ≥ 0.
 */
export function devianceTerm(x: number, mean: number): number {
  if (Math.abs(x - mean) >= 0.1 * (x + mean)) return x * Math.log(x / mean) + mean - x
  const v = (x - mean) / (x + mean)
  let sum = (x - mean) * v
  let power = 2 * x * v
  for (let odd = 3; ; odd += 2) {
    power *= v * v
    const next = sum + power / odd
    if (next === sum) return sum
    sum = next
  }
}
