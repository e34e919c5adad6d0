import type { AbilityData } from './ability-data.ts'

/** Graders parted into blocks: who is in which, and in which place. */
export interface GraderBlocks {
  readonly blockOf: Int32Array
  readonly placeIn: Int32Array
  readonly sizes: readonly number[]
}

/**
 * Parts graders into blocks of a size at most, those who judged the same candidates most often together: in a service each unit
 * mostly has graders of its own. Up to that size all are one block.
 */
export function graderBlocks({ design, sheetStart, grader }: AbilityData, largest: number): GraderBlocks {
  const { graders, candidates } = design
  const parent = Int32Array.from({ length: graders }, (_, j) => (graders <= largest ? 0 : j))
  const size = new Int32Array(graders).fill(1)
  const rootOf = (j: number): number => {
    let at = j
    while (parent[at] !== at) at = parent[at]!
    parent[j] = at
    return at
  }
  if (graders > largest) {
    for (const [pair] of meetings(grader, sheetStart, candidates, graders)) {
      const [one, other] = [rootOf(Math.floor(pair / graders)), rootOf(pair % graders)]
      if (one === other || size[one]! + size[other]! > largest) continue
      parent[other] = one
      size[one]! += size[other]!
    }
  }
  const known = new Map<number, number>()
  const sizes: number[] = []
  const placeIn = new Int32Array(graders)
  const blockOf = Int32Array.from({ length: graders }, (_, j) => {
    const root = rootOf(j)
    if (!known.has(root)) known.set(root, sizes.push(0) - 1)
    const block = known.get(root)!
    placeIn[j] = sizes[block]!
    sizes[block]! += 1
    return block
  })
  return { blockOf, placeIn, sizes }
}

/** How often two graders judged the same candidate, the most often met first; a pair as `one × graders + other`. */
function meetings(grader: Int32Array, sheetStart: Int32Array, candidates: number, graders: number): [number, number][] {
  const met = new Map<number, number>()
  for (let candidate = 0; candidate < candidates; candidate++) {
    for (let s = sheetStart[candidate]!; s < sheetStart[candidate + 1]!; s++) {
      for (let t = sheetStart[candidate]!; t < s; t++) {
        const [one, other] = [Math.min(grader[s]!, grader[t]!), Math.max(grader[s]!, grader[t]!)]
        if (one < 0 || one === other) continue
        met.set(one * graders + other, (met.get(one * graders + other) ?? 0) + 1)
      }
    }
  }
  return [...met].sort(([pair, count], [otherPair, otherCount]) => otherCount - count || pair - otherPair)
}
