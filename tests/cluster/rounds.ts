import { setTimeout } from 'node:timers/promises'
import { seededRandom, shuffled } from '../support/shuffled.ts'
import type { Cluster, Node } from './run-cluster.ts'
import { longestGap, type Seen } from './seen.ts'
import { until } from './until.ts'

/** Between two rounds, so that sheets stream by the new primary for a while. */
const QUIET_MS = 2_000
const LONGEST_QUIET_MS = 5_000
/** Longer than Patroni needs to find out that a primary is frozen. */
const FROZEN_MS = 30_000
const STORED_AGAIN_MS = 120_000
/** So many sheets each server stores before a round is over. */
const SHEETS_AFTER = 3

/** Out: what brings it back. */
type Way = (cluster: Cluster, primary: Node) => Promise<() => Promise<void>>

const WAYS: readonly { readonly name: string; readonly lose: Way }[] = [
  {
    name: 'killed',
    async lose(cluster, primary) {
      cluster.kill(primary)
      return async () => {}
    },
  },
  {
    name: 'frozen',
    async lose(cluster, primary) {
      const thaw = cluster.freeze(primary)
      const long = setTimeout(FROZEN_MS)
      return async () => {
        await long
        thaw()
      }
    },
  },
  {
    name: 'switched over',
    async lose(cluster, primary) {
      await cluster.switchOver(primary)
      return async () => {}
    },
  },
]

interface Rounds {
  readonly cluster: Cluster
  readonly count: number
  readonly seed: number
  readonly seen: Seen
  readonly servers: readonly string[]
  /** Hears the number of each round before it begins. */
  readonly onRound: (round: number) => void
  readonly say: (line: string) => void
}

/** Loses the primary so often, each way as often as the others; says of each time how long nothing was stored. */
export async function runRounds({ cluster, count, seed, seen, servers, onRound, say }: Rounds): Promise<void> {
  const random = seededRandom(seed)
  let ways: typeof WAYS = []
  for (let round = 0; round < count; round += 1) {
    onRound(round)
    if (ways.length === 0) ways = shuffled(WAYS, random)
    const [way, ...others] = ways
    ways = others
    await setTimeout(QUIET_MS + random() * (LONGEST_QUIET_MS - QUIET_MS))
    const primary = await cluster.primary()
    const faults = seen.faults.length
    const lost = performance.now()
    const bringBack = await way!.lose(cluster, primary)
    const next = await cluster.primary(primary)
    const promoted = performance.now()
    await until('No sheets are stored by each server again', STORED_AGAIN_MS, () =>
      seen.moments.every((each) => each.filter((moment) => moment > promoted).length >= SHEETS_AFTER) ? true : null,
    )
    const gaps = servers.map((server, place) => `${longestGap(seen.moments[place]!, lost).toFixed(1)} s ${server}`)
    await bringBack()
    await cluster.whole()
    say(
      `${round + 1}. ${primary.name} ${way!.name}, ${next.name} follows; without a sheet stored ${gaps.join(', ')}; ` +
        `whole after ${((performance.now() - lost) / 1_000).toFixed(0)} s; faults ${seen.faults.length - faults}`,
    )
  }
}
