/** Latencies in milliseconds, and how long all of it took in seconds. */
export interface Timing {
  readonly latencies: readonly number[]
  readonly seconds: number
}

/** Either so many calls in all, or as many as end before so many milliseconds are over. */
export type Extent = { readonly calls: number } | { readonly milliseconds: number }

/** Something that is timed: one call, numbered from 0. It throws when the answer is not the right one. */
export type Call = (n: number) => Promise<void>

/**
 * Calls something again and again, so many calls at a time, each worker waiting for its answer before it calls again.
 * `first` is the number of the first call.
 */
export async function closedLoop(call: Call, concurrency: number, extent: Extent, first = 0): Promise<Timing> {
  const latencies: number[] = []
  const start = performance.now()
  let next = first
  const mayGoOn = (now: number) => ('calls' in extent ? next - first < extent.calls : now - start < extent.milliseconds)
  const work = async () => {
    for (let before = performance.now(); mayGoOn(before); before = performance.now()) {
      await call(next++)
      latencies.push(performance.now() - before)
    }
  }
  await Promise.all(Array.from({ length: concurrency }, work))
  return { latencies, seconds: (performance.now() - start) / 1000 }
}
