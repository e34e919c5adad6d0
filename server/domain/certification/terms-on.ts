import type { PlainDate } from '../calendar/plain-date.ts'
import type { Terms } from './types.ts'

/** The terms that hold on a day: the latest that began by then; before the first, the first. Throws on an empty list. */
export function termsOn(terms: readonly Terms[], day: PlainDate): Terms {
  let found: Terms | undefined
  let first: Terms | undefined
  for (const one of terms) {
    if (!first || one.effectiveFrom < first.effectiveFrom) first = one
    if (one.effectiveFrom <= day && (!found || one.effectiveFrom >= found.effectiveFrom)) found = one
  }
  const answer = found ?? first
  if (!answer) throw new RangeError('termsOn: a certification needs terms')
  return answer
}
