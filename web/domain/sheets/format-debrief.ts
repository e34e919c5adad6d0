import type { SheetBody, SheetDetail, SheetResult } from '#contract/sheets/sheets.ts'
import type { Retest } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { drillFirst } from './drill-first.ts'
import { formatScore } from './format-outcome.ts'

/** How the outcome came about, in one sentence. */
export const formatDebrief = (standard: Standard, result: SheetResult): string => {
  const score = formatScore(result)
  const untested = result.notTested ? `; ${result.notTested} not tested, which is not failed` : ''
  return score === '' ? standard.title : `${standard.title}: ${score}${untested}.`
}

/** What to drill by this sheet, most wanting first, a line each. */
export const formatDrill = (standard: Standard, body: Pick<SheetBody, 'majors'>, result: SheetResult): string[] => {
  if (result.ending === 'recorded') return ['Only the outcome is on record.']
  const titles = new Map([...standard.majors, ...standard.minors].map(({ code, title }) => [code, title]))
  const { first, next, unknown } = drillFirst(body, result)
  const correct = new Map(result.minors.map((minor) => [minor.code, minor]))
  const lines = first.map((code) => {
    const minor = correct.get(code)
    const why = minor
      ? `${minor.correct} of ${minor.correct + minor.incorrect} correct`
      : 'a major measure; it ends the test'
    return `${titles.get(code) ?? code}: ${why}`
  })
  const named = (codes: readonly string[]) => codes.map((code) => titles.get(code) ?? code).join('; ')
  if (next.length > 0) lines.push(`Then what was GO with a trial incorrect: ${named(next)}`)
  if (unknown.length > 0) lines.push(`Not reached, so practise it too: ${named(unknown)}`)
  return lines.length > 0 ? lines : ['Every trial called was correct. Keep it so.']
}

/** When the retest may and must be, a line for each certification with different days. `open`: retests this sheet opened. */
export const formatRetest = (
  sheet: Pick<SheetDetail, 'state' | 'result' | 'day'>,
  open: readonly Pick<Retest, 'certification' | 'earliest' | 'due' | 'needsReview'>[],
  today: string,
): string[] => {
  if (sheet.state === 'held')
    return ['The sheet is held; when the training office has decided, the days of a retest follow.']
  if (sheet.state === 'rejected' || sheet.result.outcome === 'VOID')
    return ['It is no attempt, so nothing is to be retested.']
  if (sheet.result.outcome === 'GO') return ['None: it was GO.']
  if (open.length === 0) return ['None is open in any certification that asks for this standard.']
  const lines = open.map(({ earliest, due, needsReview }) => {
    const review = needsReview ? ' A review with the training office comes first.' : ''
    return `From ${formatDayInFull(earliest, today)}, at the latest on ${formatDayInFull(due, today)}.${review}`
  })
  return [...new Set(lines)]
}
