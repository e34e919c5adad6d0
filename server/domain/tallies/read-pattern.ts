import type { CountedDefinition } from './tally-layout.ts'

export type Outcome = 'GO' | 'NO-GO' | null

/** A mark pattern (see `markPattern`) by measure. Out: outcomes of majors and of minors by code; null: not tested. */
export function readPattern(
  { majors, minors }: CountedDefinition,
  marks: string,
): { readonly majors: ReadonlyMap<string, Outcome>; readonly minors: ReadonlyMap<string, Outcome> } {
  const outcome = (place: number): Outcome => (marks[place] === 'G' ? 'GO' : marks[place] === 'N' ? 'NO-GO' : null)
  return {
    majors: new Map(majors.map(({ code }, i) => [code, outcome(i)])),
    minors: new Map(minors.map(({ code }, i) => [code, outcome(majors.length + i)])),
  }
}
