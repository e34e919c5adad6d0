import './counts-plot.css'

export interface PlotPoint {
  key: string
  label: string
  part: number
  of: number
}

const WIDTH = 720
const HEIGHT = 300
const LEFT = 46
const BOTTOM = 34
const TOP = 10
const RIGHT = 14

const niceTop = (value: number): number => [5, 10, 20, 30, 40, 50, 60, 80, 100, 150, 200, 300, 500, 1000, 2000, 5000].find((top) => top >= value) ?? value

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
  const top = niceTop(Math.max(...points.map((point) => point.of), 1))
  const all = points.reduce((sum, point) => sum + point.of, 0)
  const share = all === 0 ? 0 : points.reduce((sum, point) => sum + point.part, 0) / all
  const x = (value: number) => LEFT + (value / top) * (WIDTH - LEFT - RIGHT)
  const y = (value: number) => HEIGHT - BOTTOM - (value / top) * (HEIGHT - BOTTOM - TOP)
  const ticks = [0, 1, 2, 3, 4, 5].map((fifth) => (top / 5) * fifth).filter(Number.isInteger)
  return (
    <svg className="counts-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
      <path className="plot-axis" d={`M${LEFT} ${TOP}V${HEIGHT - BOTTOM}H${WIDTH - RIGHT}`} />
      {ticks.map((tick) => (
        <g key={tick} className="plot-text">
          <text x={x(tick)} y={HEIGHT - BOTTOM + 18} textAnchor="middle">
            {tick}
          </text>
          <text x={LEFT - 8} y={y(tick) + 5} textAnchor="end">
            {tick}
          </text>
        </g>
      ))}
      <path className="plot-all" d={`M${x(0)} ${y(0)}L${x(top)} ${y(top)}`} />
      <path className="plot-line" d={`M${x(0)} ${y(0)}L${x(top)} ${y(top * share)}`} />
      <text className="plot-text" x={x(top) - 4} y={y(top * share) + 20} textAnchor="end">
        {lineLabel}
      </text>
      <text className="plot-text" x={x(top)} y={HEIGHT - 2} textAnchor="end">
        {ofLabel}
      </text>
      <text className="plot-text" x={LEFT + 8} y={TOP + 12}>
        {partLabel}
      </text>
      {points.map((point) => (
        <circle key={point.key} className="plot-dot" cx={x(point.of)} cy={y(point.part)} r="5.5">
          <title>{`${point.label}: ${point.part} of ${point.of}`}</title>
        </circle>
      ))}
    </svg>
  )
}
