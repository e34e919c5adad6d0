import type { MeasureFindings } from '#contract/findings/findings.ts'

type Measure = MeasureFindings['items'][number]

/** A minor or a major measure as the page lists it. */
export interface FailingRow extends Pick<Measure, 'standard' | 'measure' | 'versions' | 'current' | 'rate' | 'rest'> {
  tested: number
  noGo: number
  faults: readonly { code: string; count: number }[]
  /** Null: every test decided it, or it is a major. */
  notReached: Measure['notReached']
  /** Of trials; null for a major, which has none. */
  trials: { incorrect: number; of: number } | null
}

/** Minors that anybody was tested on. */
export const minorRows = ({ items }: Pick<MeasureFindings, 'items'>): FailingRow[] =>
  items
    .filter(({ tested }) => tested > 0)
    .map(({ trials, incorrect, ...rest }) => ({ ...rest, trials: { incorrect, of: trials } }))

/** Majors that were judged. */
export const majorRows = ({ majors }: Pick<MeasureFindings, 'majors'>): FailingRow[] =>
  majors
    .filter(({ judged }) => judged > 0)
    .map(({ major, judged, ...rest }) => ({ ...rest, measure: major, tested: judged, trials: null, notReached: null }))
