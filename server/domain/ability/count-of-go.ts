/**
 * The chance of at least k GO of measures that are independent with these chances: the Poisson-binomial distribution, measure
 * by measure. The same as `poissonBinomial` summed from k on, without memory of its own.
 * In: chances; a whole k; room for n + 1 numbers. Out: 1 for k ≤ 0, 0 for k above n.
 */
export function chanceAtLeast(chances: Float64Array, k: number, room: Float64Array): number {
  const n = chances.length
  if (k <= 0) return 1
  if (k > n) return 0
  room.fill(0, 0, n + 1)
  room[0] = 1
  for (let m = 0; m < n; m++) {
    const p = chances[m]!
    for (let j = m + 1; j > 0; j--) room[j] = room[j]! * (1 - p) + room[j - 1]! * p
    room[0]! *= 1 - p
  }
  let sum = 0
  for (let j = n; j >= k; j--) sum += room[j]!
  return sum
}

/** Of each measure, the chance that exactly k of the others are GO: whether it then decides. `out` has one number a measure. */
export function chanceOthersMake(chances: Float64Array, k: number, out: Float64Array, room: Float64Array): void {
  const n = chances.length
  const size = n + 1
  // room: the distribution over the first m measures, by m; then, running backwards, over the last ones.
  room.fill(0)
  room[0] = 1
  for (let m = 0; m < n; m++) {
    const p = chances[m]!
    for (let j = 0; j <= m + 1; j++) {
      room[(m + 1) * size + j] = room[m * size + j]! * (1 - p) + (j > 0 ? room[m * size + j - 1]! * p : 0)
    }
  }
  const after = room.subarray(size * size, size * size + size)
  after.fill(0)
  after[0] = 1
  for (let m = n - 1; m >= 0; m--) {
    let sum = 0
    for (let j = Math.max(0, k - (n - 1 - m)); j <= Math.min(k, m); j++) sum += room[m * size + j]! * after[k - j]!
    out[m] = k < 0 ? 0 : sum
    const p = chances[m]!
    for (let j = n - m; j > 0; j--) after[j] = after[j]! * (1 - p) + after[j - 1]! * p
    after[0]! *= 1 - p
  }
}

/** A measure's chance of GO by the chance of a correct trial: at least `needed` of `trials`. For 2 of 3: p² (3 − 2p). */
export function goByTrial(trials: number, needed: number): (p: number) => number {
  if (trials === 3 && needed === 2) return (p) => p * p * (3 - 2 * p)
  const ways: number[] = []
  for (let k = 0, count = 1; k <= trials; k++) {
    ways.push(count)
    count = (count * (trials - k)) / (k + 1)
  }
  return (p) => {
    let sum = 0
    for (let k = needed; k <= trials; k++) sum += ways[k]! * p ** k * (1 - p) ** (trials - k)
    return sum
  }
}
