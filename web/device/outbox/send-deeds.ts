import { ApiError } from '../../api/errors.ts'
import type { Deed } from '../store/deed.ts'

/** What sending deeds needs from outside. */
export interface DeedWire {
  readonly read: () => Promise<Deed[]>
  /** Throws `ApiError` or `NoAnswerError`. */
  readonly send: (deed: Deed) => Promise<unknown>
  readonly drop: (deed: Deed) => Promise<void>
  readonly keep: (deed: Deed) => Promise<void>
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
export const sendDeeds = async ({ read, send, drop, keep }: DeedWire): Promise<number> => {
  let taken = 0
  for (const deed of await read()) {
    if (deed.state !== 'waiting') continue
    try {
      await send(deed)
      taken += 1
      await drop(deed)
    } catch (error) {
      if (!(error instanceof ApiError) || error.status >= SERVER_ERROR || TRY_LATER.has(error.status)) throw error
      if (error.problem.type === 'about:blank') throw error
      if (error.problem.type === OUTDONE) await drop(deed)
      else await keep({ ...deed, state: 'refused', message: error.message })
    }
  }
  return taken
}
