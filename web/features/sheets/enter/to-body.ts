import { dayInZone } from '#calendar/day-in-zone.ts'
import { zonedInstant } from '#calendar/zoned-instant.ts'
import type { SheetBody } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { clockTime } from '../../../words/clock-time.ts'
import { BLANK_MAJOR, BLANK_MINOR, type Draft } from './draft.ts'
import { parseClock } from './parse-clock.ts'

/** A field of the sheet's head that something is wrong with. */
export type HeadField =
  | 'standard'
  | 'candidate'
  | 'sponsor'
  | 'grader'
  | 'arm'
  | 'day'
  | 'start'
  | 'finish'
  | 'void'
  | 'reason'

export type HeadErrors = Partial<Record<HeadField, string>>

/** What has to be filled in before a sheet can be sent, field by field. */
export const missingInHead = (draft: Draft, standard: Standard | undefined): HeadErrors => {
  const errors: HeadErrors = {}
  if (!standard) errors.standard = 'Choose the standard that was tested.'
  if (!draft.candidate) errors.candidate = 'Choose the candidate from the list.'
  if (!draft.grader) errors.grader = 'Choose the grader from the list.'
  if (standard && standard.arms.length > 0 && !draft.arm) errors.arm = 'Choose the arm the test was taken with.'
  if (!/^\d{4}-\d{2}-\d{2}$/.test(draft.day)) errors.day = 'Give the day of the test.'
  const start = parseClock(draft.start)
  const finish = parseClock(draft.finish)
  if (!start) errors.start = 'Give the time it started, such as 0900.'
  if (!finish) errors.finish = 'Give the time it finished, such as 0931.'
  if (start && finish && finish < start) errors.finish = 'It finished before it started: correct one of the times.'
  if (draft.holds === 'void' && draft.voidKind === 'other' && draft.voidText.trim() === '') {
    errors.void = 'Say why the test is void.'
  }
  if (draft.amends && draft.amends.reason.trim() === '') errors.reason = 'Say why the sheet is amended.'
  return errors
}

/** Keeps the instant of a stored sheet, seconds and all, while its day and minute are not changed. */
const instantOf = (draft: Draft, clock: string, stored: string | undefined, timeZone: string): string =>
  stored && dayInZone(stored, timeZone) === draft.day && clockTime(stored, timeZone) === clock
    ? stored
    : zonedInstant(draft.day, clock, timeZone)

/**
 * The sheet as it is sent. The head is complete (`missingInHead` found nothing); measures come in the order of the
 * standard, so that pointers of an answer lead back to their rows. Times are clock times in the candidate's zone.
 */
export const toBody = (draft: Draft, standard: Standard, timeZone: string): SheetBody => {
  const stored = draft.amends?.body
  const outcomeOnly = draft.holds === 'GO' || draft.holds === 'NO-GO' ? draft.holds : null
  return {
    purpose: draft.purpose,
    standard: standard.code,
    standardVersion: standard.version,
    arm: draft.arm || null,
    candidateId: draft.candidate?.id ?? '',
    sponsorId: draft.sponsor?.id ?? null,
    graderId: draft.grader?.id ?? '',
    testDayId: stored?.testDayId ?? null,
    secondOf: draft.secondOf || null,
    startedAt: instantOf(draft, parseClock(draft.start) ?? '00:00', stored?.startedAt, timeZone),
    finishedAt: instantOf(draft, parseClock(draft.finish) ?? '00:00', stored?.finishedAt, timeZone),
    conditions: draft.conditions,
    ...(outcomeOnly ? { majors: [], minors: [] } : marksOf(draft, standard)),
    pauses: stored?.pauses ?? [],
    void: draft.holds === 'void' ? { kind: draft.voidKind, text: draft.voidText.trim() } : null,
    outcomeOnly,
    notes: draft.notes,
    acknowledged: stored?.acknowledged ?? [],
    ...(stored?.duplicateOf && { duplicateOf: stored.duplicateOf }),
  }
}

/** Only the marks, in the order of the standard; a call that is no number stays out, which the rules then point at. */
export const marksOf = (
  draft: Draft,
  standard: Pick<Standard, 'majors' | 'minors'>,
): Pick<SheetBody, 'majors' | 'minors'> => ({
  majors: standard.majors.map(({ code }) => {
    const { mark, atCall, faults } = draft.majors[code] ?? BLANK_MAJOR
    const note = draft.amends?.body.majors.find((major) => major.code === code)?.note ?? null
    const call = mark === 'NO-GO' && /^\d{1,4}$/.test(atCall.trim()) ? Number(atCall) : null
    return { code, mark, atCall: call, faults, note }
  }),
  minors: standard.minors.map(({ code }) => ({ code, ...(draft.minors[code] ?? BLANK_MINOR) })),
})
