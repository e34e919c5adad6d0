import type { StandardBody } from '#contract/standards/standards.ts'
import type { DraftProblem } from './draft-problems.ts'

/** What every part of the editor works with. */
export interface Editing {
  readonly draft: StandardBody
  readonly problems: readonly DraftProblem[]
  /** Changes the draft; `about` joins what is typed into one field to one step. */
  readonly edit: (next: StandardBody, about?: string) => void
}

/** The opened part: of a measure, its kind and code; else its name. */
export type PartKey = 'about' | 'rule' | 'gauges' | 'calls' | 'publish' | `majors:${string}` | `minors:${string}`

/** The parts in the order in which they are gone through. */
export const partsOf = ({ majors, minors }: StandardBody): PartKey[] => [
  'about',
  'rule',
  ...majors.map(({ code }) => `majors:${code}` as const),
  ...minors.map(({ code }) => `minors:${code}` as const),
  'gauges',
  'calls',
  'publish',
]

const TITLES = {
  about: 'What it is',
  rule: 'Rule',
  gauges: 'Gauges',
  calls: 'Order of calls',
  publish: 'Compare and publish',
}

/** The kind and code of the measure that a part is about; null: it is about none. */
export const measureOf = (part: PartKey): { kind: 'majors' | 'minors'; code: string } | null => {
  const [kind, code] = [part.slice(0, 6), part.slice(7)]
  return kind === 'majors' || kind === 'minors' ? { kind, code } : null
}

/** What a part is called. */
export const titleOfPart = (draft: StandardBody, part: PartKey): string => {
  const measure = measureOf(part)
  if (!measure) return TITLES[part as keyof typeof TITLES]
  return draft[measure.kind].find(({ code }) => code === measure.code)?.title.trim() || 'Without a title'
}

const PLACES: Readonly<Record<string, PartKey>> = { rule: 'rule', gauges: 'gauges', calls: 'calls' }

/** The part in which something wrong is put right. */
export const partAt = (draft: StandardBody, pointer: string): PartKey => {
  const [, list = '', place = ''] = pointer.split('/')
  if (list === 'majors' || list === 'minors') {
    const measure = draft[list][Number(place)]
    if (measure && place !== '') return `${list}:${measure.code}`
  }
  return PLACES[list] ?? 'about'
}
