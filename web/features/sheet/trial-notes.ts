import type { SheetBody } from '#contract/sheets.ts'
import type { Standard } from '#contract/standards.ts'
import { placeInBand } from '#scoring/band.ts'
import type { MeasureMarks } from '../../model/measure-marks.ts'

export interface TrialNote {
  trial: number
  text: string
}

/** What was noted on each trial of a measure, in words: faults, readings with where they lie, overrides with their reason. */
export const trialNotes = (standard: Standard, body: Pick<SheetBody, 'minors'>, measure: MeasureMarks): TrialNote[] => {
  const definition = standard.minors.find(({ code }) => code === measure.code)
  const readings = body.minors.find(({ code }) => code === measure.code)?.readings ?? []
  const notes: TrialNote[] = []
  for (let trial = 1; trial <= measure.trials; trial++) {
    const faults = measure.faults
      .filter((fault) => fault.trial === trial)
      .map(({ code }) => definition?.faults.find((fault) => fault.code === code)?.title ?? code)
    const read = readings
      .filter((reading) => reading.trial === trial)
      .map(({ gauge: code, value, override }) => {
        const gauge = standard.gauges.find((known) => known.code === code)
        if (!gauge) return `${code} ${value}`
        const place = placeInBand(gauge, value)
        const where = place === 'inside' ? '' : place === 'low' ? ', low' : ', high'
        return `${gauge.title} ${value} ${gauge.unit}${where}${override ? `; the mark stands: ${override}` : ''}`
      })
    const text = [...faults, ...read].join('; ')
    if (text) notes.push({ trial, text })
  }
  return notes
}
