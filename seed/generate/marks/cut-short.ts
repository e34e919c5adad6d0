import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import type { StandardBody } from '../../../server/contract/standards/standards.ts'

type MarkedMinor = SheetBody['minors'][number]

/** What is on the sheet when a test ends after so many calls: the trials called by then, with what belongs to them. */
export function cutShort(standard: StandardBody, minors: readonly MarkedMinor[], calls: number): MarkedMinor[] {
  const called = new Set(standard.calls.slice(0, calls).map(({ measure, trial }) => `${measure} ${trial}`))
  return minors.map(({ code, trials, faults, readings }) => {
    const isCalled = ({ trial }: { trial: number }) => called.has(`${code} ${trial}`)
    return {
      code,
      trials: trials.filter((_, index) => isCalled({ trial: index + 1 })),
      faults: faults.filter(isCalled),
      readings: readings.filter(isCalled),
    }
  })
}

/** Leaves out third trials of measures that two alike trials have decided, as a grader does when time is short. */
export function withoutDecided(standard: StandardBody, minors: readonly MarkedMinor[]): MarkedMinor[] {
  const { needed } = standard.rule
  return minors.map((minor) => {
    const first = minor.trials.slice(0, needed)
    const isDecided = first.length === needed && first.every((mark) => mark === 'correct')
    const measured = minor.readings.some(({ trial, override }) => trial <= needed && override === null)
    if (!isDecided || measured) return minor
    const isKept = ({ trial }: { trial: number }) => trial <= needed
    return { ...minor, trials: first, faults: minor.faults.filter(isKept), readings: minor.readings.filter(isKept) }
  })
}
