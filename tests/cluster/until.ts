import { setTimeout } from 'node:timers/promises'

const LOOK_MS = 200

/**
 * Looks again and again until there is something to see.
 * @throws Error that says what did not come, where it takes longer than it may
 */
export async function until<Found>(
  what: string,
  withinMs: number,
  look: () => Found | null | Promise<Found | null>,
): Promise<Found> {
  const end = performance.now() + withinMs
  for (;;) {
    const found = await look()
    if (found !== null) return found
    if (performance.now() > end) throw new Error(`${what} within ${withinMs / 1000} s`)
    await setTimeout(LOOK_MS)
  }
}
