import { type Call, closedLoop, type Extent } from './closed-loop.ts'
import type { CpuClock } from './cpu-clock.ts'
import { type Round, type Summary, summarize } from './summary.ts'

export interface Contestant {
  readonly call: Call
  /** Of all that works for it. */
  readonly cpu: CpuClock
}

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
  contestants: Readonly<Record<Name, Contestant>>,
  { rounds, concurrency, extent, warmUp }: Contest,
): Promise<Record<Name, Summary>> {
  const names = Object.keys(contestants) as Name[]
  const done = new Map<Name, Round[]>(names.map((name) => [name, []]))
  for (let round = 0; round <= rounds; round++) {
    for (const name of names) {
      const { call, cpu } = contestants[name]
      const before = done.get(name)!
      const called = before.reduce((sum, { latencies }) => sum + latencies.length, 0)
      const cpuBefore = cpu()
      const timing = await closedLoop(call, concurrency, round === 0 ? warmUp : extent, called)
      const cpuAfter = cpu()
      const cpuSeconds = cpuBefore === null || cpuAfter === null ? null : cpuAfter - cpuBefore
      before.push({ ...timing, cpuSeconds })
    }
  }
  const summaries = names.map((name) => [name, summarize(done.get(name)!.slice(1))])
  return Object.fromEntries(summaries) as Record<Name, Summary>
}
