/** What the streams have seen so far. */
export interface Seen {
  /** Ids of the sheets that a server has said are stored, by candidate. */
  readonly acknowledged: Map<string, Set<string>>
  /** Moments at which each server said so, in milliseconds. */
  readonly moments: readonly number[][]
  /** Answers by status; 0: none came. */
  readonly writes: Map<number, number>
  readonly reads: Map<number, number>
  /** The longest that anybody waited for an answer, in milliseconds. */
  longestMs: number
  /** What must not be, in words. */
  readonly faults: string[]
}

export const nothingSeen = (servers: number): Seen => ({
  acknowledged: new Map(),
  moments: Array.from({ length: servers }, () => []),
  writes: new Map(),
  reads: new Map(),
  longestMs: 0,
  faults: [],
})

export const acknowledgedCount = ({ acknowledged }: Seen): number =>
  [...acknowledged.values()].reduce((sum, ids) => sum + ids.size, 0)

/** The longest time between two sheets that a server stored since a moment, in seconds. */
export function longestGap(moments: readonly number[], since: number): number {
  const before = moments.findLast((moment) => moment < since) ?? since
  const after = [before, ...moments.filter((moment) => moment >= since)]
  return after.slice(1).reduce((most, moment, place) => Math.max(most, moment - after[place]!), 0) / 1_000
}
