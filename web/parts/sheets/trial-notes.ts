import type { SheetBody } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { placeInBand } from '#scoring/band.ts'
import { formatBand } from '../../domain/standards/format-band.ts'
import type { MeasureMarks } from './measure-marks.ts'

/** One line of what was noted on a measure: `lead` says which trial or gauge. */
export interface TrialNote {
  lead: string
  text: string
}

/** What was noted on a measure: the faults trial by trial, then the readings gauge by gauge with where they lie. */
export const trialNotes = (standard: Standard, body: Pick<SheetBody, 'minors'>, measure: MeasureMarks): TrialNote[] => {
  const definition = standard.minors.find(({ code }) => code === measure.code)
  const readings = body.minors.find(({ code }) => code === measure.code)?.readings ?? []
  const titleOf = (code: string) => definition?.faults.find((fault) => fault.code === code)?.title ?? code
  const trials = [...new Set(measure.faults.map(({ trial }) => trial))]
  const faults = trials.map((trial) => ({
    lead: `trial ${trial}`,
    text: measure.faults
      .filter((fault) => fault.trial === trial)
      .map(({ code }) => titleOf(code))
      .join('; '),
  }))
  const gauges = [...new Set(readings.map(({ gauge }) => gauge))]
  return [...faults, ...gauges.map((code) => gaugeNote(standard, code, readings))]
}

type Reading = SheetBody['minors'][number]['readings'][number]

const gaugeNote = (standard: Standard, code: string, readings: readonly Reading[]): TrialNote => {
  const gauge = standard.gauges.find((known) => known.code === code)
  const values = readings
    .filter((reading) => reading.gauge === code)
    .sort((a, b) => a.trial - b.trial)
    .map(({ trial, value, override }) => {
      const place = gauge ? placeInBand(gauge, value) : 'inside'
      const where = place === 'inside' ? '' : ` ${place}`
      return `${value}${where} (${trial})${override ? `, the mark stands: ${override}` : ''}`
    })
  return { lead: gauge ? `${gauge.title}, ${formatBand(gauge)}:` : code, text: values.join(', ') }
}
