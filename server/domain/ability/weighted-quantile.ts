/**
 * The value below which a share of the weight lies, interpolated between the middles of neighbours' weights.
 * In: values, their weights (adding up to 1), a share in (0, 1).
 */
export function weightedQuantile(values: ArrayLike<number>, weights: ArrayLike<number>, share: number): number {
  const order = Array.from(values, (_, i) => i).sort((a, b) => values[a]! - values[b]!)
  let [below, before, middle] = [0, values[order[0]!]!, 0]
  for (const i of order) {
    const here = below + weights[i]! / 2
    if (here >= share) {
      const part = here > middle ? (share - middle) / (here - middle) : 1
      return before + Math.max(0, Math.min(1, part)) * (values[i]! - before)
    }
    below += weights[i]!
    before = values[i]!
    middle = here
  }
  return before
}
