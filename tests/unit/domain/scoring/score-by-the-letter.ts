import type { Marks, ScoredStandard, TrialFault } from '../../../../server/domain/scoring/types.ts'

export interface LetterScore {
  readonly ending: string
  readonly outcome: string | null
  readonly go: number
  readonly noGo: number
  readonly undecided: number
  readonly minimum: number
  readonly minors: readonly {
    readonly code: string
    readonly outcome: string
    readonly correct: number
    readonly incorrect: number
    readonly faults: readonly TrialFault[]
  }[]
}

/**
 * What a sheet comes to, by asking of every trial whether it counts as correct and of every measure how many did: no
 * code shared with the scoring under test. Values have at most eight digits, so doubles compare them exactly.
 */
export function scoreByTheLetter(standard: ScoredStandard, marks: Marks): LetterScore {
  const { trials, needed, percent } = standard.rule
  const gaugeOf = (code: string) => standard.gauges.find((gauge) => gauge.code === code)!
  const minors = standard.minors.map(({ code }) => {
    const marked = marks.minors.find((minor) => minor.code === code)
    const counts = { correct: 0, incorrect: 0 }
    const faults = new Set<string>()
    for (let trial = 1; trial <= trials; trial++) {
      const mark = marked?.trials[trial - 1] ?? null
      if (mark === null) continue
      for (const fault of marked?.faults ?? []) if (fault.trial === trial) faults.add(`${trial}:${fault.code}`)
      const off = (marked?.readings ?? []).filter((reading) => {
        const { min, max } = gaugeOf(reading.gauge)
        const value = Number(reading.value)
        const outside =
          value < Number(min ?? Number.NEGATIVE_INFINITY) || value > Number(max ?? Number.POSITIVE_INFINITY)
        return reading.trial === trial && outside && !reading.override
      })
      for (const { gauge, value } of off) {
        const { min, low, high } = gaugeOf(gauge)
        const named = min != null && Number(value) < Number(min) ? low : high
        if (named) faults.add(`${trial}:${named}`)
      }
      counts[off.length > 0 ? 'incorrect' : mark] += 1
    }
    let outcome = 'undecided'
    if (counts.incorrect > trials - needed) outcome = 'NO-GO'
    if (counts.correct >= needed) outcome = 'GO'
    const listed = [...faults].sort().map((text) => ({ trial: Number(text[0]), code: text.slice(2) }))
    return { code, outcome, ...counts, faults: listed }
  })
  const count = (outcome: string) => minors.filter((minor) => minor.outcome === outcome).length
  const [go, noGo, undecided] = [count('GO'), count('NO-GO'), count('undecided')]
  let minimum = 0
  while (100 * 10 * minimum < Math.round(Number(percent) * 10) * minors.length) minimum += 1
  const major = (code: string) => marks.majors.find((one) => one.code === code)?.mark ?? null
  const verdict = (): [string, string | null] => {
    if (marks.void) return ['void', 'VOID']
    if (standard.majors.some(({ code }) => major(code) === 'NO-GO')) return ['stopped', 'NO-GO']
    if (undecided > 0 || standard.majors.some(({ code }) => major(code) !== 'GO')) return ['unfinished', null]
    return ['completed', go >= minimum ? 'GO' : 'NO-GO']
  }
  const [ending, outcome] = verdict()
  return { ending, outcome, go, noGo, undecided, minimum, minors }
}
