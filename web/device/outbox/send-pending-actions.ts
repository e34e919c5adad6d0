import { ApiError } from '../../api/errors.ts'
import type { PendingAction } from '../store/pending-action.ts'

/** What sending pending actions needs from outside. */
export interface DeedWire {
  readonly read: () => Promise<PendingAction[]>
  /** Throws `ApiError` or `NoAnswerError`. */
  readonly send: (pendingAction: PendingAction) => Promise<unknown>
  readonly drop: (pendingAction: PendingAction) => Promise<void>
  readonly keep: (pendingAction: PendingAction) => Promise<void>
}

const SERVER_ERROR = 500
const TRY_LATER = new Set([401, 408, 425, 429])
/** The test of such a booking has taken place, so nothing is left to say about it. */
const OUTDONE = 'urn:reviewstand:problem:booking-has-sheet'

/**
 * Sends what waits, in the order in which it was done; each names its state whole, so that a repetition changes nothing.
 * What is refused stays with the reason and lets the others pass. Throws where nothing is known of the outcome: then it,
 * and all after it, are still on the device. Out: how many the server took.
 */
export const sendPendingActions = async ({ read, send, drop, keep }: DeedWire): Promise<number> => {
  let taken = 0
  for (const pendingAction of await read()) {
    if (pendingAction.state !== 'waiting') continue
    try {
      await send(pendingAction)
      taken += 1
      await drop(pendingAction)
    } catch (error) {
      if (!(error instanceof ApiError) || error.status >= SERVER_ERROR || TRY_LATER.has(error.status)) throw error
      if (error.problem.type === 'about:blank') throw error
      if (error.problem.type === OUTDONE) await drop(pendingAction)
      else await keep({ ...pendingAction, state: 'refused', message: error.message })
    }
  }
  return taken
}
