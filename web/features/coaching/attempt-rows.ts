import type { SheetSummary } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { formatMajorsFailed, formatOutcome } from '../../domain/sheets/format-outcome.ts'
import { type MeasureMarks, measureMarks, versionOf } from '../../parts/sheets/measure-marks.ts'
import { counted } from '../../words/format-number.ts'

export interface AttemptRow {
  sheet: SheetSummary
  outcome: string
  /** GO with a GO, NO-GO with a NO-GO, otherwise neither. */
  good: boolean | null
  /** What sets the row apart: held, practice, second grader, flags, its number as an attempt. */
  notes: string[]
  cells: (MeasureMarks | null)[]
  /** "10 of 13" and, under it, "11 needed", or why there is no score. */
  score: string
  scoreNote: string
}

/** Does the sheet enter the status: counted, a test, not void, by the first grader? */
export const entersStatus = ({ state, body, result }: SheetSummary): boolean =>
  state === 'counted' && body.purpose === 'test' && body.secondOf === null && result.ending !== 'void'

const notesOf = ({ state, body, result, flags, revision }: SheetSummary): string[] => {
  const numbers = [...new Set(result.attempts.map(({ number }) => number))]
  return [
    state === 'held' ? 'held, counts for nothing yet' : state === 'rejected' ? 'rejected, counts for nothing' : '',
    body.purpose === 'practice' ? 'practice' : '',
    body.secondOf ? 'second grader' : '',
    ...(entersStatus({ state, body, result } as SheetSummary) ? numbers.map((number) => `attempt ${number}`) : []),
    flags.length > 0 ? `flagged: ${flags.map((flag) => flag.replaceAll('-', ' ')).join(', ')}` : '',
    revision > 1 ? `amended ${counted(revision - 1, 'time')}` : '',
  ].filter(Boolean)
}

/** The sheets of one standard, the newest first, as rows of strips; `measures` are the columns. */
export const attemptRows = (
  sheets: readonly SheetSummary[],
  standards: readonly Standard[],
  measures: readonly { code: string }[],
): AttemptRow[] =>
  sheets.map((sheet) => {
    const { body, result } = sheet
    const version = versionOf(standards, body)
    const marked = version ? measureMarks(version, body, result) : []
    const failed = formatMajorsFailed(body, version)
    const scored = result.ending === 'completed'
    return {
      sheet,
      outcome: formatOutcome(body, result),
      good: result.outcome === 'GO' ? true : result.outcome === 'NO-GO' ? false : null,
      notes: notesOf(sheet),
      cells: measures.map(({ code }) => marked.find((measure) => measure.code === code) ?? null),
      score: scored ? `${result.go} of ${result.minors.length}` : failed.join('; '),
      scoreNote: scored ? `${result.minimum} needed` : '',
    }
  })
