/** An answer that took longer says too little about the moment. */
const LONGEST_WAY_MS = 10_000
/** A clock that is further off than this is wrong; the times of a sheet are then the server's. */
const TOLERANCE_MS = 60_000

let ahead = 0
const listeners = new Set<() => void>()

/** Compares this device's clock with the server's. In: what the server said, and when the question went and the answer came, by this device. */
export const noteServerTime = (said: string | null, sentAt: number, receivedAt: number): void => {
  const there = Date.parse(said ?? '')
  if (Number.isNaN(there) || receivedAt - sentAt > LONGEST_WAY_MS) return
  const found = (sentAt + receivedAt) / 2 - there
  const now = Math.abs(found) > TOLERANCE_MS ? Math.round(found) : 0
  // To the minute, as it is said: else every answer would be news.
  const isNews = Math.round(now / 60_000) !== Math.round(ahead / 60_000)
  ahead = now
  if (isNews) for (const listener of listeners) listener()
}

/** So many milliseconds this device's clock is ahead of the server's, below zero behind; 0 while it is right, or nothing is known. */
export const clockAhead = (): number => ahead

/** Calls back when the clock is found wrong, or right again. Out: stops that. */
export const onClockFound = (callback: () => void): (() => void) => {
  listeners.add(callback)
  return () => {
    listeners.delete(callback)
  }
}

/** Now: by the device's clock, or by the server's where the device's was found wrong. */
export const rightNow = (): Date => new Date(Date.now() - ahead)
