import { ApiError } from '../../api/errors.ts'

/** Something on the device that goes out by itself. */
interface Pending {
  readonly state: 'running' | 'waiting' | 'refused'
  readonly message: string
}

/** What sending it needs from outside. */
export interface PendingActionWire<Kept extends Pending> {
  readonly read: () => Promise<Kept[]>
  /** Throws `ApiError` or `NoAnswerError`. */
  readonly send: (pendingAction: Kept) => Promise<unknown>
  readonly drop: (pendingAction: Kept) => Promise<void>
  readonly keep: (pendingAction: Kept) => Promise<void>
}

const SERVER_ERROR = 500
const TRY_LATER = new Set([401, 408, 425, 429])

/**
 * Sends what waits, in the order in which it was done; each names its state whole, so that a repetition changes nothing.
 * What is refused stays with the reason and lets the others pass. Throws where nothing is known of the outcome: then it,
 * and all after it, are still on the device. Out: how many the server took.
 */
export const sendPendingActions = async <Kept extends Pending>({
  read,
  send,
  drop,
  keep,
}: PendingActionWire<Kept>): Promise<number> => {
  let taken = 0
  for (const pendingAction of await read()) {
    if (pendingAction.state !== 'waiting') continue
    try {
      await send(pendingAction)
      taken += 1
      await drop(pendingAction)
    } catch (error) {
      if (!(error instanceof ApiError) || error.status >= SERVER_ERROR || TRY_LATER.has(error.status)) throw error
      // Nothing is taken before the account has a second factor.
      if (error.problem.type === 'about:blank' || error.is('second-factor-required')) throw error
      // The test of such a booking has taken place, so nothing is left to say about it.
      if (error.is('booking-has-sheet')) await drop(pendingAction)
      else await keep({ ...pendingAction, state: 'refused', message: error.message })
    }
  }
  return taken
}
