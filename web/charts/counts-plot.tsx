import { plotScale } from './plot-scale.ts'
import './counts-plot.css'

export interface PlotPoint {
  key: string
  label: string
  part: number
  of: number
}

interface CountsPlotProps {
  points: readonly PlotPoint[]
  /** What is counted along the bottom and up the side. */
  ofLabel: string
  partLabel: string
  /** What the line of the common share is called. */
  lineLabel: string
  label: string
}

/** Parts against wholes, a dot each, with the line on which the common share lies. No rank: names are only in the list and on hover. */
export function CountsPlot({ points, ofLabel, partLabel, lineLabel, label }: CountsPlotProps) {
  const across = plotScale(Math.max(...points.map((point) => point.of), 1))
  const up = plotScale(Math.max(...points.map((point) => point.part), 1))
  const all = points.reduce((sum, point) => sum + point.of, 0)
  const share = all === 0 ? 0 : points.reduce((sum, point) => sum + point.part, 0) / all
  const x = (value: number) => `${(100 * value) / across.top}%`
  const y = (value: number) => `${100 - (100 * value) / up.top}%`
  const end = Math.min(across.top, share > 0 ? up.top / share : across.top)
  return (
    <figure className="counts-plot">
      <figcaption>
        {partLabel} <span aria-hidden="true">↑</span>
      </figcaption>
      <div className="plot-frame">
        <svg role="img" aria-label={label}>
          <line className="plot-line" x1="0" y1="100%" x2={x(end)} y2={y(end * share)} />
          {points.map((point) => (
            <circle key={point.key} className="plot-dot" cx={x(point.of)} cy={y(point.part)} r="5.5">
              <title>{`${point.label}: ${point.part} of ${point.of}`}</title>
            </circle>
          ))}
        </svg>
        {up.ticks.map((tick) => (
          <i key={tick} className="plot-up" style={{ top: y(tick) }} aria-hidden="true">
            {tick}
          </i>
        ))}
        {across.ticks.map((tick) => (
          <i key={tick} className="plot-across" style={{ left: x(tick) }} aria-hidden="true">
            {tick}
          </i>
        ))}
      </div>
      <p className="plot-foot">
        <span>
          <svg width="34" height="10" aria-hidden="true">
            <line className="plot-line" x1="0" y1="5" x2="34" y2="5" />
          </svg>{' '}
          {lineLabel}
        </span>
        <span>
          {ofLabel} <span aria-hidden="true">→</span>
        </span>
      </p>
    </figure>
  )
}
