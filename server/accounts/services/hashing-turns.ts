import { AppError } from '../../errors.ts'

/** Hashing takes a thread of the pool that files and names are read with, too, so half of its four are left alone. */
const AT_ONCE = 2
/** More than wait behind one another for some seconds are sent away. */
const MOST_WAITING = 200

let running = 0
const waiting: (() => void)[] = []

/** Runs a costly hash when its turn comes. Throws an AppError where too many wait already. */
export async function inTurn<Result>(hash: () => Promise<Result>): Promise<Result> {
  if (running >= AT_ONCE) {
    if (waiting.length >= MOST_WAITING) {
      throw new AppError('unavailable', 'busy', 'Too many people sign in at this moment. Try again in a few seconds.')
    }
    await new Promise<void>((resolve) => waiting.push(resolve))
  } else running += 1
  try {
    return await hash()
  } finally {
    const next = waiting.shift()
    if (next) next()
    else running -= 1
  }
}
