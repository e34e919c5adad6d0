import type { SheetSummary } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { placeInBand } from '#scoring/band.ts'
import type { BandReading } from '../../charts/reading-band.tsx'
import { versionOf } from '../../parts/sheets/measure-marks.ts'

export interface GaugeLines {
  code: string
  title: string
  unit: string
  min: string | null
  max: string | null
  low: number
  high: number
  all: number
  /** One line a sheet with readings of this gauge, the oldest first. */
  lines: { sheetId: string; day: string; readings: BandReading[] }[]
}

/** The readings of the sheets of one standard, gauge by gauge in the order of the newest version; sheets come the newest first. */
export const gaugeLines = (
  sheets: readonly SheetSummary[],
  standards: readonly Standard[],
  newest: Standard,
): GaugeLines[] =>
  newest.gauges
    .map((gauge): GaugeLines => {
      const counts = { low: 0, high: 0, all: 0 }
      const lines = sheets.toReversed().map(({ id, day, body }) => {
        const band = versionOf(standards, body)?.gauges.find(({ code }) => code === gauge.code) ?? gauge
        const readings = body.minors
          .flatMap((minor) => minor.readings)
          .filter((reading) => reading.gauge === gauge.code)
          .map(({ value, override }): BandReading => {
            const place = placeInBand(band, value)
            counts.all += 1
            if (place !== 'inside') counts[place] += 1
            return { value: Number(value), inside: place === 'inside', overridden: override !== null }
          })
        return { sheetId: id, day, readings }
      })
      const { code, title, unit, min, max } = gauge
      return { code, title, unit, min, max, ...counts, lines: lines.filter(({ readings }) => readings.length > 0) }
    })
    .filter(({ all }) => all > 0)
