/** `count` of `n`: a part counted in a whole. Both whole numbers, 0 ≤ count ≤ n. */
export type Share = { count: number; n: number }
