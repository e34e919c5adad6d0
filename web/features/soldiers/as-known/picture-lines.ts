import type { KnownSheet, KnownStanding } from '#contract/soldiers/as-known.ts'
import type { Sayings } from '../../../domain/soldiers/format-entered.ts'

/** How somebody stood in a certification on a day, beside the word for it. */
export function standingLines(standing: KnownStanding, asOf: string, say: Sayings): string[] {
  const { status, validThrough, suspended, retests, toward } = standing
  const lines: string[] = []
  if (validThrough !== null)
    lines.push(`${validThrough < asOf ? 'Was valid' : 'Valid'} through ${say.day(validThrough)}`)
  if (suspended && status !== 'suspended') lines.push('Suspended')
  for (const { standard, earliest, due, attempt, needsReview } of retests) {
    const review = needsReview ? ', review needed first' : ''
    lines.push(
      `Retest in ${say.standard(standard)}: from ${say.day(earliest)}, due by ${say.day(due)}, attempt ${attempt}${review}`,
    )
  }
  for (const { standard, on, countsUntil } of toward) {
    lines.push(`GO in ${say.standard(standard)} on ${say.day(on)}, counts until ${say.day(countsUntil)}`)
  }
  return lines
}

/** How a sheet came out, and what else it was: held, amended. */
export const formatSheetState = ({ outcome, state, revision, isSecond }: KnownSheet): string =>
  [outcome, state === 'counted' ? '' : state, revision > 1 ? 'amended' : '', isSecond ? 'second grader’s' : '']
    .filter(Boolean)
    .join(', ')
