/** Numbers from 0 up to but without 1, the same ones for the same seed (mulberry32, by Tommy Ettinger, public domain). */
export function seededRandom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}

/** The same items in another order, each order as likely as any (Fisher and Yates). */
export function shuffled<Item>(items: readonly Item[], random: () => number): Item[] {
  const copy = [...items]
  for (let last = copy.length - 1; last > 0; last--) {
    const other = Math.floor(random() * (last + 1))
    ;[copy[last], copy[other]] = [copy[other]!, copy[last]!]
  }
  return copy
}
