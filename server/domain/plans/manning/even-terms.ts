/** How tall somebody is who could stand in a rank. */
export interface Height {
  readonly pair: string
  /** The ceremony's id and the row. */
  readonly rank: string
  readonly heightCm: number | null
}

interface Ranks {
  readonly ceremonies: readonly {
    readonly id: string
    readonly posts: readonly { readonly row: number; readonly soldierId: string | null }[]
  }[]
  readonly soldiers: readonly { readonly id: string; readonly heightCm: number | null }[]
  /** Whether those named may be moved; else their heights say what is the middle. */
  readonly letGo: boolean
}

/**
 * In each rank of several posts, the difference of each who could stand there from its middle height, by pair: that of those
 * who stay, or else the median of all who could. Who has no known height counts as the worst.
 */
export function evenTerms(heights: readonly Height[], { ceremonies, soldiers, letGo }: Ranks): [string, number][] {
  const known = new Map(soldiers.map(({ id, heightCm }) => [id, heightCm]))
  const terms: [string, number][] = []
  const byRank = new Map<string, Height[]>()
  for (const height of heights) {
    const own = byRank.get(height.rank)
    if (own) own.push(height)
    else byRank.set(height.rank, [height])
  }
  for (const ceremony of ceremonies) {
    for (const row of new Set(ceremony.posts.map((post) => post.row))) {
      const posts = ceremony.posts.filter((post) => post.row === row)
      if (posts.length < 2) continue
      const here = byRank.get(`${ceremony.id} ${row}`) ?? []
      const staying = letGo ? [] : posts.flatMap(({ soldierId }) => (soldierId ? (known.get(soldierId) ?? []) : []))
      const those = staying.length > 0 ? staying : here.flatMap(({ heightCm }) => heightCm ?? [])
      if (those.length === 0) continue
      const middle = Math.round(median(those))
      const worst = here.reduce((most, { heightCm }) => Math.max(most, Math.abs((heightCm ?? middle) - middle)), 0)
      for (const { pair, heightCm } of here) {
        const off = heightCm === null ? worst : Math.abs(heightCm - middle)
        if (off > 0) terms.push([pair, off])
      }
    }
  }
  return terms
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const half = sorted.length / 2
  return sorted.length % 2 === 1 ? sorted[Math.floor(half)]! : (sorted[half - 1]! + sorted[half]!) / 2
}
