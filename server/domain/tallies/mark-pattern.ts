import type { MarkedMajor, SheetScore } from '../scoring/types.ts'

/**
 * The outcome of every major and minor measure of a sheet, a letter each in the order of the definition, majors first:
 * G for GO, N for NO-GO, - for not tested. Empty for an outcome-only record.
 * Example: a composure NO-GO after the first measure: "GNG------------".
 */
export function markPattern(
  { majors }: { readonly majors: readonly { readonly code: string }[] },
  score: SheetScore,
  marked: readonly MarkedMajor[],
): string {
  if (score.ending === 'recorded') return ''
  const ofMajors = majors.map(({ code }) => letter(marked.find((major) => major.code === code)?.mark))
  return [...ofMajors, ...score.minors.map(({ outcome }) => letter(outcome))].join('')
}

const letter = (outcome: string | null | undefined): string =>
  outcome === 'GO' ? 'G' : outcome === 'NO-GO' ? 'N' : '-'
