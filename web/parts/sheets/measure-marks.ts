import type { SheetBody, SheetResult } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { effectiveTrials } from '#scoring/effective-trials.ts'
import type { TrialMark } from '../../charts/trial-bars.tsx'

export interface MeasureMarks {
  code: string
  title: string
  outcome: SheetResult['minors'][number]['outcome']
  /** What counts of each trial, after readings outside their band. */
  marks: readonly TrialMark[]
  trials: number
  faults: readonly { trial: number; code: string }[]
}

/** The version of a standard that a sheet was taken under, if it is known. */
export const versionOf = (
  standards: readonly Standard[],
  { standard, standardVersion }: Pick<SheetBody, 'standard' | 'standardVersion'>,
): Standard | undefined => standards.find(({ code, version }) => code === standard && version === standardVersion)

/** The minor measures of a sheet in the order of its standard, each with what counts of its trials; empty for an outcome-only record. */
export const measureMarks = (
  standard: Standard,
  body: Pick<SheetBody, 'minors'>,
  result: Pick<SheetResult, 'minors'>,
): MeasureMarks[] => {
  const gauges = new Map(standard.gauges.map((gauge) => [gauge.code, gauge]))
  return result.minors.map(({ code, outcome, faults }) => {
    const marked = body.minors.find((minor) => minor.code === code)
    return {
      code,
      title: standard.minors.find((minor) => minor.code === code)?.title ?? code,
      outcome,
      marks: marked ? effectiveTrials(marked, gauges).marks : [],
      trials: standard.rule.trials,
      faults,
    }
  })
}
