import type { StandardBody } from '#contract/standards/standards.ts'
import { named } from '#standards/code-for.ts'
import { fittingCalls } from './call-order.ts'
import { movedTo, replaced } from './list-edits.ts'

type Minor = StandardBody['minors'][number]
type Major = StandardBody['majors'][number]
export type MeasureKind = 'majors' | 'minors'

const codesOf = ({ majors, minors }: StandardBody): string[] => [...majors, ...minors].map(({ code }) => code)

/** The draft with calls that fit its measures and trials. */
export const withFittingCalls = (draft: StandardBody): StandardBody => ({ ...draft, calls: fittingCalls(draft) })

/** A minor measure of which only the title is known. */
export const newMinor = (title: string, used: readonly string[]): Minor => ({
  ...named(title, used),
  counts: null,
  gauges: [],
  checks: { preparatory: [], execution: [] },
  faults: [],
})

/** A measure more at the end of its kind, called its trials running. Out: the draft, and the code of the new measure. */
export function addMeasure(
  draft: StandardBody,
  kind: MeasureKind,
  title: string,
): { draft: StandardBody; code: string } {
  const used = codesOf(draft)
  if (kind === 'minors') {
    const minor = newMinor(title, used)
    return { draft: withFittingCalls({ ...draft, minors: [...draft.minors, minor] }), code: minor.code }
  }
  const major: Major = { ...named(title, used), criteria: [], faults: [] }
  return { draft: { ...draft, majors: [...draft.majors, major] }, code: major.code }
}

export const changeMinor = (draft: StandardBody, code: string, change: Partial<Minor>): StandardBody => ({
  ...draft,
  minors: draft.minors.map((minor) => (minor.code === code ? { ...minor, ...change } : minor)),
})

export const changeMajor = (draft: StandardBody, code: string, change: Partial<Major>): StandardBody => ({
  ...draft,
  majors: draft.majors.map((major) => (major.code === code ? { ...major, ...change } : major)),
})

/** A measure so many places further down; up where it is less than nothing. The order of calls stays. */
export function moveMeasure(draft: StandardBody, kind: MeasureKind, code: string, by: number): StandardBody {
  const at = draft[kind].findIndex((one) => one.code === code)
  return { ...draft, [kind]: movedTo<Minor | Major>(draft[kind], at, Math.max(at + by, 0)) }
}

/** Without a measure and its calls. */
export function removeMeasure(draft: StandardBody, kind: MeasureKind, code: string): StandardBody {
  const at = draft[kind].findIndex((one) => one.code === code)
  return withFittingCalls({ ...draft, [kind]: replaced<Minor | Major>(draft[kind], at, null) })
}
