import type { StoredSheet } from '#contract/sheets/sheets.ts'
import type { SheetScore } from '#scoring/types.ts'
import { inWords, listed, plural } from '../../words/format-number.ts'
import { formatViolation } from './format-rule.ts'

/** The score so far, or how the sheet comes out, in one line. */
export const formatScoreSoFar = (score: SheetScore): string => {
  switch (score.ending) {
    case 'void':
      return 'Void: no attempt.'
    case 'recorded':
      return `${score.outcome}, outcome only.`
    case 'stopped':
      return `NO-GO, stopped by a major measure; ${score.notTested} not tested.`
    case 'completed':
      return `${score.outcome}: ${score.go} of ${score.minors.length}, ${score.minimum} needed.`
    case 'unfinished':
      if (!score.reachable) return 'The minimum is out of reach; the test went on all the same.'
      return score.stillNeeded === 0 ? 'Minimum reached.' : `Needs ${score.stillNeeded} more.`
  }
}

/** Of a sheet that a later one of the same soldier was there before. */
export const CAME_LATE = ' It came in after a later sheet of the same soldier.'

/** What the server made of the sheet. */
export const formatStored = ({ state, result, violations, arrivedLate }: StoredSheet, practice: boolean): string => {
  const outcome = result.outcome === 'VOID' ? 'void' : result.outcome
  if (practice) return `Stored as practice: ${outcome}. It enters no figure.`
  return formatTest({ state, result, violations }) + (arrivedLate ? CAME_LATE : '')
}

const formatTest = ({ state, result, violations }: Pick<StoredSheet, 'state' | 'result' | 'violations'>): string => {
  if (state === 'held') {
    return `Stored and held for the training office: ${inWords(violations.length)} ${plural(violations.length, 'condition')} not met.`
  }
  if (state === 'rejected') return 'Stored; the sheet is rejected and counts for nothing.'
  if (result.outcome === 'VOID') return 'Stored: void, no attempt.'
  const numbers = [...new Set(result.attempts.map(({ number }) => number))]
  const attempt = numbers.length > 0 ? ` as attempt ${listed(numbers.map(String))}` : ''
  return `Counted${attempt}: ${result.outcome}${result.minimum === null ? '' : `, ${result.go} of ${result.minors.length}`}.`
}

/** Why it is held, a line a condition. */
export const formatWhyHeld = (
  { violations }: Pick<StoredSheet, 'violations'>,
  today: string,
  titleOf: (code: string) => string,
): string[] =>
  violations.map((violation) =>
    [formatViolation(violation, today, titleOf), violation.waivable ? '' : 'This is never waived.'].join(' ').trim(),
  )

/** What keeps a sheet from being finished: the places that are still open. */
export const formatUnfinished = (open: readonly string[]): string => {
  const shown = open.slice(0, 3)
  const rest = open.length - shown.length
  return `The sheet is not finished. Still open: ${listed(rest > 0 ? [...shown, `${rest} more`] : shown)}.`
}
