const MASK = (1n << 64n) - 1n

/** SplitMix64 (Vigna 2015, public domain, prng.di.unimi.it/splitmix64.c): 64-bit words from one 64-bit seed. */
export function splitMix64(seed: bigint): () => bigint {
  let state = seed & MASK
  return () => {
    state = (state + 0x9e3779b97f4a7c15n) & MASK
    let word = state
    word = ((word ^ (word >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK
    word = ((word ^ (word >> 27n)) * 0x94d049bb133111ebn) & MASK
    return word ^ (word >> 31n)
  }
}

const rotateLeft = (word: number, bits: number): number => (word << bits) | (word >>> (32 - bits))

/**
 * xoshiro128** 1.1 (Blackman and Vigna 2018, "Scrambled linear pseudorandom number generators", public domain,
 * prng.di.unimi.it/xoshiro128starstar.c): unsigned 32-bit words, period 2^128 − 1.
 * In: four 32-bit words, not all zero (else a RangeError; it would give zeros for ever).
 */
export function xoshiro128(seed: readonly [number, number, number, number]): () => number {
  if (seed.every((word) => word >>> 0 === 0)) throw new RangeError('xoshiro128 needs a seed that is not all zero.')
  let [s0, s1, s2, s3] = seed
  return () => {
    const word = Math.imul(rotateLeft(Math.imul(s1, 5), 7), 9) >>> 0
    const shifted = s1 << 9
    s2 ^= s0
    s3 ^= s1
    s1 ^= s2
    s0 ^= s3
    s2 ^= shifted
    s3 = rotateLeft(s3, 11)
    return word
  }
}
