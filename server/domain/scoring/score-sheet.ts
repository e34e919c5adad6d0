import { minimumGo } from './minimum.ts'
import { scoreMinor } from './score-minor.ts'
import type { Marks, MinorScore, RunningScore, ScoredStandard, SheetScore } from './types.ts'

/**
 * What a well-formed sheet comes to under its version of a standard.
 *
 * In: the standard, the marks (measures in any order, missing ones are blank; `findMalformed` has found nothing).
 * Out: minors in the standard's order, the minimum, and either how the test ended or, when a trailing blank leaves it
 * unfinished, what is still needed. A void goes before a stop, a stop before a completed test.
 */
export function scoreSheet(standard: ScoredStandard, marks: Marks): SheetScore {
  if (marks.outcomeOnly) {
    return { ending: 'recorded', outcome: marks.outcomeOnly, minimum: null, go: 0, noGo: 0, notTested: 0, minors: [] }
  }
  const running = runningScore(standard, marks)
  const { minimum, go, noGo } = running
  const closed = (ending: 'void' | 'stopped' | 'completed', outcome: 'VOID' | 'GO' | 'NO-GO') =>
    ({ ending, outcome, minimum, go, noGo, notTested: running.open, minors: running.minors.map(asNotTested) }) as const
  if (marks.void) return closed('void', 'VOID')
  if (hasMajorNoGo(marks)) return closed('stopped', 'NO-GO')
  const majorsGo = standard.majors.every(({ code }) => marks.majors.find((major) => major.code === code)?.mark === 'GO')
  if (!majorsGo || running.open > 0) return running
  return closed('completed', go >= (minimum ?? 0) ? 'GO' : 'NO-GO')
}

/**
 * The score while a test runs: measures GO, NO-GO and open, how many GOs are still needed, and whether the minimum is
 * within reach (never with a major NO-GO). Undecided measures have outcome null.
 */
export function runningScore(standard: ScoredStandard, marks: Pick<Marks, 'majors' | 'minors'>): RunningScore {
  const gauges = new Map(standard.gauges.map((gauge) => [gauge.code, gauge]))
  const marked = new Map(marks.minors.map((minor) => [minor.code, minor]))
  const minors = standard.minors.map(({ code }) =>
    scoreMinor(marked.get(code) ?? { code, trials: [] }, standard.rule, gauges),
  )
  const go = minors.filter((minor) => minor.outcome === 'GO').length
  const noGo = minors.filter((minor) => minor.outcome === 'NO-GO').length
  const open = minors.length - go - noGo
  const minimum = minimumGo(standard.rule.percent, standard.minors.length)
  const reachable = go + open >= minimum && !hasMajorNoGo(marks)
  return {
    ending: 'unfinished',
    outcome: null,
    minimum,
    go,
    noGo,
    open,
    stillNeeded: Math.max(0, minimum - go),
    reachable,
    minors,
  }
}

const hasMajorNoGo = (marks: Pick<Marks, 'majors'>): boolean => marks.majors.some((major) => major.mark === 'NO-GO')

const asNotTested = (minor: MinorScore): MinorScore => ({ ...minor, outcome: minor.outcome ?? 'not tested' })
