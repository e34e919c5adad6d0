import type { SheetDetail } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'

/** One measure as two graders saw it. */
export interface ComparedMeasure {
  readonly code: string
  readonly title: string
  readonly first: string
  readonly second: string
  readonly differs: boolean
}

type Sheet = Pick<SheetDetail, 'majors' | 'minors' | 'result'>

const ofMajor = ({ majors }: Sheet, code: string): string =>
  majors.find((one) => one.code === code)?.mark ?? 'not marked'

const ofMinor = ({ minors, result }: Sheet, code: string): string => {
  const scored = result.minors.find((one) => one.code === code)
  if (!scored) return 'not marked'
  const called = scored.correct + scored.incorrect
  const faults = minors.find((one) => one.code === code)?.faults.length ?? 0
  const more = faults > 0 ? `, ${faults} ${faults === 1 ? 'fault' : 'faults'}` : ''
  return `${scored.outcome ?? 'undecided'}, ${scored.correct} of ${called} correct${more}`
}

const outcome = (words: string): string => words.split(',')[0]!

/** Every measure of the standard in its order, majors first; `differs` where outcomes do. */
export const compareSheets = (standard: Standard, first: Sheet, second: Sheet): ComparedMeasure[] => {
  const row = (code: string, title: string, of: (sheet: Sheet, code: string) => string): ComparedMeasure => {
    const [one, other] = [of(first, code), of(second, code)]
    return { code, title, first: one, second: other, differs: outcome(one) !== outcome(other) }
  }
  return [
    ...standard.majors.map(({ code, title }) => row(code, title, ofMajor)),
    ...standard.minors.map(({ code, title }) => row(code, title, ofMinor)),
  ]
}
