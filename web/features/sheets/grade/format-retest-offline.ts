import { addDays } from '#calendar/plain-date.ts'
import type { SheetResult, StoredSheet } from '#contract/sheets/sheets.ts'
import type { RetestTerms } from '#contract/test-days/day-list.ts'
import { formatDayInFull } from '../../../words/format-day.ts'

interface Test {
  standard: string
  arm: string | null
  /** The day of the test. */
  day: string
  result: Pick<SheetResult, 'outcome'>
  /** How the sheet stands on the server; null while it was not sent. */
  state: StoredSheet['state'] | null
}

/**
 * What can be said of the retest without asking the server, a line for each pair of days: the earliest and the due day by
 * the terms that were downloaded. Whether the sheet counts, and whether a review comes first, hangs on everything else
 * that is on record of the candidate; so that stays for the server.
 */
export const formatRetestOffline = (test: Test, terms: readonly RetestTerms[], today: string): string[] => {
  if (test.result.outcome === 'VOID') return ['It is no attempt, so nothing is to be retested.']
  if (test.result.outcome === 'GO') return ['None: it was GO.']
  if (test.state === 'rejected') return ['It is no attempt, so nothing is to be retested.']
  const days = terms
    .filter(({ standard, arms }) => standard === test.standard && (arms.length === 0 || arms.includes(test.arm ?? '')))
    .flatMap((one) => {
      const { waitDays, dueDays } =
        one.terms.findLast(({ effectiveFrom }) => effectiveFrom <= test.day) ?? one.terms[0]!
      const [earliest, due] = [addDays(test.day, waitDays), addDays(test.day, dueDays)]
      return `If the test counts: from ${formatDayInFull(earliest, today)}, at the latest on ${formatDayInFull(due, today)}.`
    })
  const follows =
    'Whether it counts, and whether a review comes first, is on the debrief once the sheet is on the server.'
  return [...new Set(days), follows]
}
