import type { PracticeBody } from '#contract/coaching/practices.ts'

type Mark = 'correct' | 'incorrect'

/** One measure that was chosen, as far as it was tried. */
export interface TriedMeasure {
  readonly code: string
  readonly trials: readonly Mark[]
  readonly faults: readonly { readonly trial: number; readonly code: string }[]
}

/** Practice of chosen measures while it goes on. */
export interface RunningPractice {
  readonly candidate: { readonly id: string; readonly grade: string; readonly familyName: string }
  readonly standard: string
  readonly standardVersion: number
  readonly arm: string | null
  readonly startedAt: string
  /** In the order in which they were chosen; one at least. */
  readonly measures: readonly TriedMeasure[]
  /** The place of the measure that is shown. */
  readonly at: number
  /** The places of the measures marked, in order: what is taken back is the last. */
  readonly marked: readonly number[]
}

/** What a coach does: marks a trial of the measure shown, notes a fault on its last one, takes a mark back, goes elsewhere. */
export type PracticeEvent =
  | { readonly kind: 'mark'; readonly mark: Mark }
  | { readonly kind: 'fault'; readonly fault: string }
  | { readonly kind: 'undo' }
  | { readonly kind: 'show'; readonly at: number }

/** More trials of one measure are not taken in. */
const MOST_TRIALS = 200

export const startPractice = (
  head: Pick<RunningPractice, 'candidate' | 'standard' | 'standardVersion' | 'arm'>,
  measures: readonly string[],
  startedAt: string,
): RunningPractice => ({
  ...head,
  startedAt,
  measures: measures.map((code) => ({ code, trials: [], faults: [] })),
  at: 0,
  marked: [],
})

/** The practice after something was done; the same one where that changes nothing. */
export function applyToPractice(practice: RunningPractice, event: PracticeEvent): RunningPractice {
  const { measures, at, marked } = practice
  const put = (place: number, measure: TriedMeasure) => measures.map((one, index) => (index === place ? measure : one))
  const shown = measures[at]!
  switch (event.kind) {
    case 'mark':
      if (shown.trials.length >= MOST_TRIALS) return practice
      return {
        ...practice,
        measures: put(at, { ...shown, trials: [...shown.trials, event.mark] }),
        marked: [...marked, at],
      }
    case 'fault':
      return shown.trials.length === 0 ? practice : { ...practice, measures: put(at, toggled(shown, event.fault)) }
    case 'undo': {
      const place = marked.at(-1)
      if (place === undefined) return practice
      const last = measures[place]!
      const trials = last.trials.slice(0, -1)
      const faults = last.faults.filter(({ trial }) => trial <= trials.length)
      return {
        ...practice,
        measures: put(place, { ...last, trials, faults }),
        marked: marked.slice(0, -1),
        at: place,
      }
    }
    case 'show':
      return measures[event.at] && event.at !== at ? { ...practice, at: event.at } : practice
  }
}

const toggled = (measure: TriedMeasure, code: string): TriedMeasure => {
  const trial = measure.trials.length
  const isOther = (one: TriedMeasure['faults'][number]) => one.trial !== trial || one.code !== code
  const others = measure.faults.filter(isOther)
  const isNoted = others.length < measure.faults.length
  return { ...measure, faults: isNoted ? others : [...measure.faults, { trial, code }] }
}

/** Is this fault noted on the last trial of a measure? */
export const isNotedOnLast = ({ trials, faults }: TriedMeasure, fault: string): boolean =>
  faults.some(({ trial, code }) => trial === trials.length && code === fault)

/** As it is sent, without what was not tried; null: nothing was. */
export function practiceBody(practice: RunningPractice, finishedAt: string): PracticeBody | null {
  const measures = practice.measures
    .filter(({ trials }) => trials.length > 0)
    .map(({ code, trials, faults }) => ({ code, trials: [...trials], faults: [...faults] }))
  if (measures.length === 0) return null
  const { candidate, standard, arm, startedAt } = practice
  // A clock put back meanwhile must not keep it from being sent.
  const end = finishedAt < startedAt ? startedAt : finishedAt
  return { candidateId: candidate.id, standard, arm, startedAt, finishedAt: end, measures }
}

/** Of these codes those of minor measures of a standard, in the standard's order. */
export const chosenOf = (
  { minors }: { readonly minors: readonly { readonly code: string }[] },
  codes: readonly string[],
): string[] => minors.map(({ code }) => code).filter((code) => codes.includes(code))
