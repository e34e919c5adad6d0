/** What a piece of work changes and what it reads, by name. */
export interface Footprint {
  readonly changes: readonly string[]
  readonly reads: readonly string[]
  /** Nothing else may run beside it. */
  readonly alone?: boolean
}

const share = (some: readonly string[], others: readonly string[]): boolean =>
  some.some((name) => others.includes(name))

const clash = (one: Footprint, other: Footprint): boolean =>
  one.alone === true ||
  other.alone === true ||
  share(one.changes, other.changes) ||
  share(one.changes, other.reads) ||
  share(one.reads, other.changes)

/**
 * Runs work on items in their order, a few at a time as long as what one changes is nothing another beside it reads or
 * changes; so the result is that of one after the other. Stops at the first failure, and fails with it.
 */
export async function inOrder<Item>(
  items: Iterable<Item>,
  atOnce: number,
  footprintOf: (item: Item) => Footprint,
  work: (item: Item) => Promise<void>,
): Promise<void> {
  const running = new Map<Promise<void>, Footprint>()
  try {
    for (const item of items) {
      const footprint = footprintOf(item)
      while (running.size >= atOnce || [...running.values()].some((other) => clash(footprint, other))) {
        await Promise.race(running.keys())
      }
      const run: Promise<void> = work(item).then(() => {
        running.delete(run)
      })
      running.set(run, footprint)
    }
    await Promise.all(running.keys())
  } catch (error) {
    await Promise.allSettled(running.keys())
    throw error
  }
}
