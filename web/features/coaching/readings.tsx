import { ReadingBand } from '../../charts/reading-band.tsx'
import { readingScale } from '../../charts/reading-scale.ts'
import { formatBand } from '../../domain/standards/format-band.ts'
import { formatDay } from '../../words/format-day.ts'
import { ofAll } from '../../words/of-all.ts'
import type { GaugeLines } from './gauge-lines.ts'
import './readings.css'

/** The readings of one gauge as dots on its band, sheet under sheet. */
export function Readings({ gauge, today }: { gauge: GaugeLines; today: string }) {
  const min = gauge.min === null ? null : Number(gauge.min)
  const max = gauge.max === null ? null : Number(gauge.max)
  const values = gauge.lines.flatMap(({ readings }) => readings.map(({ value }) => value))
  const { from, to, ticks } = readingScale([min, max], values)
  return (
    <figure className="readings">
      <figcaption>
        <b>{gauge.title}</b> <span className="muted">{formatBand(gauge)}</span>
      </figcaption>
      <div className="readings-lines">
        {gauge.lines.map(({ sheetId, day, readings }) => (
          <div key={sheetId} className="readings-line">
            <span>{formatDay(day, today)}</span>
            <ReadingBand
              min={min}
              max={max}
              from={from}
              to={to}
              readings={readings}
              label={readings.map(({ value, inside }) => `${value}${inside ? '' : ' outside'}`).join(', ')}
            />
          </div>
        ))}
        <div className="readings-ticks" aria-hidden="true">
          {ticks.map((tick) => (
            <i key={tick} style={{ left: `${(100 * (tick - from)) / (to - from)}%` }}>
              {tick}
            </i>
          ))}
        </div>
      </div>
      <p className="muted">
        {gauge.low + gauge.high === 0
          ? `All ${gauge.all} readings inside the band.`
          : `Low ${ofAll(gauge.low, gauge.all)}, high ${ofAll(gauge.high, gauge.all)}.`}
      </p>
    </figure>
  )
}
