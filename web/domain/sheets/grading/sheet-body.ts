import type { SheetBody } from '#contract/sheets/sheets.ts'
import { runningScore, scoreSheet } from '#scoring/score-sheet.ts'
import type { ScoredStandard, SheetScore } from '#scoring/types.ts'
import { callsOf, endedAfter, openCalls } from './calls.ts'
import { majorOf, type RunningSheet, trialAt } from './running-sheet.ts'

/** The marks of a running sheet, in the standard's order of measures; what is noted on a trial without a mark waits for it. */
export const marksOf = (
  standard: ScoredStandard,
  sheet: RunningSheet,
): Pick<SheetBody, 'majors' | 'minors' | 'void' | 'outcomeOnly'> => ({
  majors: standard.majors.map(({ code }) => {
    const { mark, atCall, faults, note } = majorOf(sheet, code)
    return { code, mark, atCall, faults: mark === null ? [] : [...faults], note: note.trim() || null }
  }),
  minors: standard.minors.map(({ code }) => {
    const marked = callsOf(standard, code)
      .map((call) => ({ trial: standard.calls[call]!.trial, ...trialAt(sheet, call) }))
      .filter(({ mark }) => mark !== null)
    return {
      code,
      trials: marked.map(({ mark }) => mark),
      faults: marked.flatMap(({ trial, faults }) => faults.map((fault) => ({ trial, code: fault }))),
      readings: marked.flatMap(({ trial, readings }) => readings.map((reading) => ({ trial, ...reading }))),
    }
  }),
  void: sheet.void,
  outcomeOnly: null,
})

/** The score as it stands, by the server's own rules; a sheet whose majors are not judged yet is unfinished. */
export const scoreSoFar = (standard: ScoredStandard, sheet: RunningSheet): SheetScore => {
  const marks = marksOf(standard, sheet)
  return sheet.void || endedAfter(sheet) !== null ? scoreSheet(standard, marks) : runningScore(standard, marks)
}

/** Why a sheet cannot be closed yet: the calls still open; empty when it can. A void or stopped one can at any time. */
export const keepsOpen = (standard: ScoredStandard, sheet: RunningSheet): number[] =>
  sheet.void ? [] : openCalls(standard, sheet)

/** What the score will be: closing says GO of every major measure that did not fall. */
export const closingScore = (standard: ScoredStandard, sheet: RunningSheet): SheetScore =>
  scoreSheet(standard, confirmed(marksOf(standard, sheet), sheet))

/**
 * The body that a sheet is sent with. In: a sheet that nothing keeps open, whose candidate has an id. Closing confirms the
 * major measures that did not fall as GO; on a void or stopped sheet they stay as they are. It ended when something last
 * happened on the field.
 */
export const sheetBody = (standard: ScoredStandard, sheet: RunningSheet): SheetBody => {
  const { candidate, sponsor, ...head } = sheet.head
  if (candidate.id === null) throw new RangeError('sheetBody: the candidate has no id yet')
  return {
    ...head,
    candidateId: candidate.id,
    sponsorId: sponsor?.id ?? null,
    startedAt: sheet.startedAt,
    finishedAt: Date.parse(sheet.lastAt) < Date.parse(sheet.startedAt) ? sheet.startedAt : sheet.lastAt,
    ...confirmed(marksOf(standard, sheet), sheet),
    pauses: sheet.pauses.map((pause) => ({ ...pause, note: '' })),
    notes: sheet.notes,
    acknowledged: [...sheet.acknowledged],
  }
}

const confirmed = <Marks extends Pick<SheetBody, 'majors'>>(marks: Marks, sheet: RunningSheet): Marks => {
  if (sheet.void || endedAfter(sheet) !== null) return marks
  const majors = marks.majors.map((major) => ({
    ...major,
    mark: major.mark ?? ('GO' as const),
    faults: [...majorOf(sheet, major.code).faults],
  }))
  return { ...marks, majors }
}
