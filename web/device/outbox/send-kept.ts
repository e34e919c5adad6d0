import { dayInZone } from '#calendar/day-in-zone.ts'
import type { SheetBody, StoredSheet } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { ApiError } from '../../api/errors.ts'
import { sheetBody } from '../../domain/sheets/grading/sheet-body.ts'
import type { GradedPerson, SheetHead } from '../../domain/sheets/grading/sheet-head.ts'
import { scoredStandard } from '../../domain/sheets/scored-standard.ts'
import type { KeptSheet } from '../store/kept-sheet.ts'

/** What sending needs from outside; each throws `ApiError` or `NoAnswerError`. */
export interface Wire {
  put(id: string, body: SheetBody): Promise<StoredSheet>
  identify(person: GradedPerson, day: string): Promise<{ id: string; sponsor: SheetHead['sponsor'] }>
  standard(code: string, version: number): Promise<Standard | undefined>
  /** The first grader's sheet of an attempt that this account grades as the second; null: not known. */
  firstSheet?(head: SheetHead): Promise<string | null>
}

/**
 * What came of sending a sheet. `later`: nothing is known, so the same is sent again. `signed out`: the same, after
 * signing in. `refused`: the server has not stored it and would not; somebody has to mend it.
 */
export type Sending =
  | { readonly kind: 'stored'; readonly answer: StoredSheet }
  | { readonly kind: 'later' | 'signed out'; readonly message: string }
  | { readonly kind: 'refused'; readonly message: string; readonly status: number }

/** The zone of this device, which stands on the field. */
const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone

const SERVER_ERROR = 500
const SIGNED_OUT = 401
const NOT_FOUND = 404
const TRY_LATER = new Set([408, 425, 429])

/** The sheet of this booking came in from another phone; ids say nothing to a grader. */
const SAYS_TAKEN = 'A sheet of this test has come in from another phone already.'

/** Was this said by our server, and not by something on the way, such as the sign-in page of a guest network? */
const isOurs = ({ problem }: ApiError): boolean => problem.type !== 'about:blank'

const failed = (error: unknown): Exclude<Sending, { kind: 'stored' }> => {
  const message = error instanceof Error ? error.message : 'Sending failed. Try again.'
  if (!(error instanceof ApiError)) return { kind: 'later', message }
  // Nothing is taken before the account has a second factor; it is not about the sheet.
  if (error.status === SIGNED_OUT || error.is('second-factor-required')) return { kind: 'signed out', message }
  if (error.status >= SERVER_ERROR || TRY_LATER.has(error.status) || !isOurs(error)) return { kind: 'later', message }
  if (error.is('id-used')) return { kind: 'refused', message: SAYS_TAKEN, status: error.status }
  const places = error.items.map(({ detail }) => detail).filter((detail) => detail !== message)
  return { kind: 'refused', message: [message, ...places].join(' '), status: error.status }
}

/**
 * The body of a closed sheet: the one of the first try, where there was one. A walk-in gets the id that the server knows
 * for roster number and name, and a second grader's sheet names the first one's as it is known by now.
 */
export const bodyToSend = async (kept: KeptSheet, wire: Wire): Promise<SheetBody> => {
  if (kept.body) return kept.body
  const { head, startedAt } = kept.sheet
  const standard = await wire.standard(head.standard, head.standardVersion)
  if (!standard) throw new Error('The standard of this sheet is not on this device any more.')
  const { candidate } = head
  const found = candidate.id === null ? await wire.identify(candidate, dayInZone(startedAt, ZONE)) : null
  const named = found ? { ...head, candidate: { ...candidate, id: found.id }, sponsor: found.sponsor } : head
  const first = head.secondOf === null ? null : await wire.firstSheet?.(named)
  const known = first ? { ...named, secondOf: first } : named
  return sheetBody(scoredStandard(standard), { ...kept.sheet, head: known })
}

/**
 * Sends one closed sheet under its own id. `fix` keeps the body on the device before it goes out, so that every later try
 * sends the same. Never throws: every failure is an outcome.
 */
export const sendKept = async (
  kept: KeptSheet,
  wire: Wire,
  fix: (body: SheetBody) => Promise<void>,
): Promise<Sending> => {
  let body: SheetBody
  try {
    body = await bodyToSend(kept, wire)
  } catch (error) {
    const sending = failed(error)
    if (!(error instanceof ApiError) || error.status !== NOT_FOUND || sending.kind !== 'refused') return sending
    const { rosterNumber, familyName } = kept.sheet.head.candidate
    const message = `Nobody on the roster has number ${rosterNumber} and the name ${familyName}. Correct one of the two.`
    return { kind: 'refused', message, status: NOT_FOUND }
  }
  try {
    if (!kept.body) await fix(body)
    const answer = await wire.put(kept.id, body)
    if (answer?.id !== kept.id) return { kind: 'later', message: 'The answer was not about this sheet.' }
    return { kind: 'stored', answer }
  } catch (error) {
    return failed(error)
  }
}
