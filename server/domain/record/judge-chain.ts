/** What was found while walking the record of changes. Hashes in hexadecimal; numbers count entries from 1. */
export interface ChainFacts {
  readonly lastSeq: number
  readonly lastHash: string | null
  readonly headSeq: number
  readonly headHash: string
  readonly breaks: readonly {
    readonly seq: number
    readonly changed: boolean
    readonly unlinked: boolean
    /** Emptied, and no removal of a soldier says so. */
    readonly unexplained: boolean
    readonly missingBefore: number
  }[]
}

export interface ChainProblem {
  readonly seq: number
  readonly detail: string
}

/** Says of each break in the chain what happened there; empty when the record is whole. */
export function judgeChain(facts: ChainFacts): ChainProblem[] {
  const problems = facts.breaks.flatMap(({ seq, changed, unlinked, unexplained, missingBefore }): ChainProblem[] => {
    if (changed) return [{ seq, detail: `Entry ${seq} was changed after it was written.` }]
    if (unexplained) return [{ seq, detail: `Entry ${seq} was emptied, and no removal of a soldier says so.` }]
    if (missingBefore > 0) return [{ seq, detail: missing(seq - missingBefore, seq - 1) }]
    return unlinked
      ? [{ seq, detail: `Entry ${seq} does not follow on the one before it: one of the two was put in or replaced.` }]
      : []
  })
  if (facts.lastSeq < facts.headSeq) {
    return [...problems, { seq: facts.headSeq, detail: missing(facts.lastSeq + 1, facts.headSeq) }]
  }
  const headFits = facts.lastSeq === facts.headSeq && (facts.lastHash === null || facts.lastHash === facts.headHash)
  if (headFits || problems.length > 0) return problems
  return [{ seq: facts.lastSeq, detail: `Entry ${facts.lastSeq} is not the one that was written last.` }]
}

const missing = (first: number, last: number): string =>
  first === last ? `Entry ${first} is missing.` : `Entries ${first} to ${last} are missing.`
