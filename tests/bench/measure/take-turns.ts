import { type Call, closedLoop, type Extent, type Timing } from './closed-loop.ts'
import { type Summary, summarize } from './summary.ts'

export interface Contest {
  readonly rounds: number
  readonly concurrency: number
  /** Of each turn. */
  readonly extent: Extent
  /** Of a turn before they count. */
  readonly warmUp: Extent
}

/**
 * Times contestants in turns (A B C A B C …), so that what else the machine does meets them all. The calls of each are
 * numbered through all its rounds.
 */
export async function takeTurns<Name extends string>(
  contestants: Readonly<Record<Name, Call>>,
  { rounds, concurrency, extent, warmUp }: Contest,
): Promise<Record<Name, Summary>> {
  const names = Object.keys(contestants) as Name[]
  const timings = new Map<Name, Timing[]>(names.map((name) => [name, []]))
  for (let round = 0; round <= rounds; round++) {
    for (const name of names) {
      const done = timings.get(name)!
      const called = done.reduce((sum, { latencies }) => sum + latencies.length, 0)
      done.push(await closedLoop(contestants[name], concurrency, round === 0 ? warmUp : extent, called))
    }
  }
  const summaries = names.map((name) => [name, summarize(timings.get(name)!.slice(1))])
  return Object.fromEntries(summaries) as Record<Name, Summary>
}
