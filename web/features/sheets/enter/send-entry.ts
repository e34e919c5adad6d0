import type { ProblemItem } from '#contract/errors.ts'
import type { StoredSheet } from '#contract/sheets/sheets.ts'
import { ApiError } from '../../../api/errors.ts'
import { amendSheet, putSheet } from '../../../api/sheets/sheets.ts'
import type { Entry } from './entry-store.ts'

/** What came of sending a sheet. `proposed`: an amendment waits for a
 * second person. `later`: nothing is known or the server is busy, so it is sent again as it is. */
export type Sent =
  | { kind: 'stored'; stored: StoredSheet }
  | { kind: 'proposed'; outcome: string }
  | { kind: 'later'; message: string }
  | { kind: 'taken'; message: string }
  | { kind: 'refused'; message: string; items: readonly ProblemItem[] }

const SERVER_ERROR = 500
const TRY_LATER = new Set([401, 408, 425, 429])
const CONFLICT = 409

/** Sends the fixed body of an entry under its own id. Never throws: every failure is an outcome. */
export const sendEntry = async ({ draft, body }: Entry, now: Date): Promise<Sent> => {
  if (!body) throw new RangeError('sendEntry: an entry without a body cannot be sent')
  try {
    const stored = draft.amends
      ? await amendSheet(draft.id, { reason: draft.amends.reason.trim(), sheet: body })
      : await putSheet(draft.id, body, now)
    if (stored.state === 'proposed') return { kind: 'proposed', outcome: stored.result.outcome ?? '' }
    return { kind: 'stored', stored }
  } catch (error) {
    const message = error instanceof Error ? error.message : 'Sending failed. Try again.'
    if (!(error instanceof ApiError) || error.status >= SERVER_ERROR || TRY_LATER.has(error.status)) {
      return { kind: 'later', message }
    }
    if (error.status === CONFLICT && !draft.amends) return { kind: 'taken', message }
    return { kind: 'refused', message, items: error.items }
  }
}
