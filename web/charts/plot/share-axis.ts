import type { Axis } from './plot.ts'

const STEPS = [0.01, 0.02, 0.05, 0.1, 0.2, 0.25]
const MOST_TICKS = 6

/** An axis of shares from none up to a round share that holds the greatest, at most to all. */
export const shareAxis = (title: string, greatest: number): Axis => {
  const step = STEPS.find((one) => greatest / one <= MOST_TICKS - 1 + 1e-9) ?? 0.25
  const to = Math.min(1, Math.max(1, Math.ceil(greatest / step - 1e-9)) * step)
  const ticks = Array.from(
    { length: Math.floor(to / step + 1e-9) + 1 },
    (_, index) => Math.round(index * step * 100) / 100,
  )
  return { title, from: 0, to, ticks, say: (share) => `${Math.round(share * 100)} %` }
}
