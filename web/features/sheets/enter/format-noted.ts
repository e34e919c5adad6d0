import type { Standard } from '#contract/standards/standards.ts'
import { counted } from '../../../words/format-number.ts'
import type { Draft } from './draft.ts'

/** What is noted on one measure, trial by trial in few words: "2: Elbow bent; 3: 4.5 in". '' for nothing. */
export const formatNoted = (standard: Standard, draft: Pick<Draft, 'majors' | 'minors'>, code: string): string => {
  const major = standard.majors.find((measure) => measure.code === code)
  if (major) {
    const noted = draft.majors[code]?.faults ?? []
    return noted.map((fault) => major.faults.find((known) => known.code === fault)?.title ?? fault).join('; ')
  }
  const definition = standard.minors.find((measure) => measure.code === code)
  const minor = draft.minors[code]
  if (!definition || !minor) return ''
  const faultTitle = (fault: string) => definition.faults.find((known) => known.code === fault)?.title ?? fault
  const unitOf = (gauge: string) => standard.gauges.find((known) => known.code === gauge)?.unit ?? ''
  const lines: string[] = []
  for (let trial = 1; trial <= standard.rule.trials; trial++) {
    const faults = minor.faults.filter((fault) => fault.trial === trial).map((fault) => faultTitle(fault.code))
    const readings = minor.readings
      .filter((reading) => reading.trial === trial)
      .map(({ gauge, value, override }) => `${value} ${unitOf(gauge)}${override === null ? '' : ', mark stands'}`)
    const noted = [...faults, ...readings]
    if (noted.length > 2) lines.push(`${trial}: ${noted[0]} and ${counted(noted.length - 1, 'more', 'more')}`)
    else if (noted.length > 0) lines.push(`${trial}: ${noted.join(', ')}`)
  }
  return lines.join('; ')
}
