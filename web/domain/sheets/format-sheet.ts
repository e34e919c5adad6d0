import type { SheetDetail, SheetResult } from '#contract/sheets/sheets.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { capital, inWords, plural } from '../../words/format-number.ts'
import { CAME_LATE } from './format-score.ts'

/** The answer on a sheet's page: who, how it came out, and when. */
export const formatSheet = (
  name: string,
  day: string,
  result: SheetResult,
  purpose: 'test' | 'practice',
  today: string,
): string => {
  const when = day === today ? 'today' : `on ${formatDayInFull(day, today)}`
  const what = purpose === 'practice' ? 'practice sheet' : 'test'
  switch (result.ending) {
    case 'void':
      return `${name}’s ${what} ${when} was void; it is no attempt.`
    case 'stopped':
      return `${name}’s ${what} ${when} was stopped by a major measure: NO-GO.`
    case 'recorded':
      return `${name} was ${result.outcome} ${when}; only the outcome is on record.`
    case 'unfinished':
      return `${name}’s ${what} ${when} is unfinished.`
    case 'completed': {
      if (result.outcome === 'GO')
        return `${name} was GO ${when}, with ${result.go} of ${result.minors.length} measures.`
      const short = (result.minimum ?? 0) - result.go
      return `${name} was NO-GO ${when}, ${inWords(short)} ${plural(short, 'measure')} short.`
    }
  }
}

/** What became of the sheet: counted (and as which attempt), held, rejected, or set aside. */
export const formatStanding = (
  sheet: Pick<SheetDetail, 'state' | 'purpose' | 'result' | 'violations' | 'flags' | 'arrivedLate' | 'duplicateOf'>,
): string => {
  if (sheet.purpose === 'practice') return 'A practice sheet: it is kept and enters no figure.'
  if (sheet.duplicateOf)
    return 'Set aside: it is of the same test as another sheet, which stands. It counts for nothing.'
  if (sheet.state === 'rejected') return 'The training office rejected it: it counts for nothing.'
  const late = sheet.arrivedLate ? CAME_LATE : ''
  if (sheet.state === 'held') {
    return `Held for the training office: ${inWords(sheet.violations.length)} ${plural(sheet.violations.length, 'condition')} of a test not met. Until it is decided it counts for nothing.${late}`
  }
  const numbers = [...new Set(sheet.result.attempts.map(({ number }) => number))]
  const attempt = numbers.length > 0 ? ` as attempt ${numbers.join(' and ')}` : ''
  const flagged =
    sheet.flags.length > 0 ? ` It is flagged: ${sheet.flags.map((flag) => flag.replaceAll('-', ' ')).join(', ')}.` : ''
  return `${capital(`counted${attempt}.`)}${late}${flagged}`
}
