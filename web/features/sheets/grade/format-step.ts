import type { Standard } from '#contract/standards/standards.ts'
import type { Step } from '../../../domain/sheets/grading/running-sheet.ts'
import { formatTrial } from './call-words.ts'

type Calls = Standard['calls']

const formatCalls = (standard: Standard, calls: Calls, places: readonly number[]): string => {
  const [first, last] = [places[0]!, places.at(-1)!]
  const trial = formatTrial(standard, calls, first)
  return first === last
    ? trial
    : trial.replace(/trial \d+ of \d+$/, `trials ${calls[first]?.trial} to ${calls[last]?.trial}`)
}

/** A step in words: "Draw, trial 1 of 3: correct"; "Uniform: NO-GO". */
export const formatStep = (standard: Standard, calls: Calls, { event, trials }: Step): string => {
  const at = (places: readonly number[], what: string) => `${formatCalls(standard, calls, places)}: ${what}`
  const titleOf = (list: readonly { code: string; title: string }[], code: string) =>
    list.find((one) => one.code === code)?.title ?? code
  switch (event.kind) {
    case 'mark':
      return at([event.call], event.mark)
    case 'marks':
      return at(event.calls, event.mark)
    case 'clear':
      return at([event.call], 'mark taken back')
    case 'leave-out':
      return at([event.call], 'left out')
    case 'override':
      return at([event.call], 'correct in spite of the reading')
    case 'reading':
      return at([event.call], `${titleOf(standard.gauges, event.gauge)} ${event.value ?? 'taken away'}`)
    case 'fault': {
      const minor = standard.minors.find(({ code }) => code === calls[event.call]?.measure)
      return at([event.call], titleOf(minor?.faults ?? [], event.fault))
    }
    case 'major':
      return `${titleOf(standard.majors, event.major)}: ${event.mark ?? 'NO-GO taken back'}`
    case 'major-fault': {
      const major = standard.majors.find(({ code }) => code === event.major)
      return `${major?.title ?? event.major}: ${titleOf(major?.faults ?? [], event.fault)}`
    }
    case 'major-note':
      return `${titleOf(standard.majors, event.major)}: note`
    default:
      return at(Object.keys(trials).map(Number), 'changed')
  }
}

/** Where a step was made, as short as a button needs it: "call 12"; the title of a major measure. */
export const formatStepPlace = (standard: Standard, { event }: Step): string => {
  if (event.kind === 'marks') return `calls ${event.calls[0]! + 1}–${event.calls.at(-1)! + 1}`
  if ('call' in event) return `call ${event.call + 1}`
  return 'major' in event ? (standard.majors.find(({ code }) => code === event.major)?.title ?? '') : ''
}
