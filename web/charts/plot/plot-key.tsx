import type { Plot, Series, Shape } from './plot.ts'
import './plot-key.css'

const SHAPES: Record<Shape, React.ReactNode> = {
  disc: <circle cx="8" cy="8" r="5.5" fill="currentColor" />,
  ring: <circle cx="8" cy="8" r="4.5" fill="none" stroke="currentColor" strokeWidth="2" />,
  diamond: <path d="M8 1 15 8 8 15 1 8z" fill="currentColor" />,
  'hollow diamond': <path d="M8 2 14 8 8 14 2 8z" fill="none" stroke="currentColor" strokeWidth="2" />,
  square: <rect x="3" y="3" width="10" height="10" fill="currentColor" />,
  up: <path d="M8 1.5 15 13.5H1z" fill="currentColor" />,
  down: <path d="M8 14.5 1 2.5h14z" fill="currentColor" />,
  cross: <path d="M8 3v10M3 8h10" stroke="currentColor" strokeWidth="2" />,
  bar: <path d="M8 1v14" stroke="currentColor" strokeWidth="2.5" />,
}

function Swatch({ series }: { series: Series }) {
  const colour = { color: `var(--${series.ink})` }
  if (series.kind === 'marks') {
    return (
      <svg height="16" aria-hidden="true" style={colour} width="16" viewBox="0 0 16 16">
        {SHAPES[series.shape]}
      </svg>
    )
  }
  if (series.kind === 'bars') {
    return (
      <svg height="16" aria-hidden="true" style={colour} width="16" viewBox="0 0 16 16">
        <rect
          x="3"
          y="2"
          width="10"
          height="12"
          fill={series.solid ? 'currentColor' : 'none'}
          stroke="currentColor"
          strokeWidth="2"
        />
      </svg>
    )
  }
  if (series.kind === 'spans') {
    return (
      <svg height="16" aria-hidden="true" style={colour} width="30" viewBox="0 0 30 16">
        <path d="M1 8h28M1 4v8M29 4v8" stroke="currentColor" strokeWidth="2" />
      </svg>
    )
  }
  return (
    <svg height="16" aria-hidden="true" style={colour} width="30" viewBox="0 0 30 16">
      <path
        d="M0 8h30"
        stroke="currentColor"
        strokeWidth={series.width ?? 1.5}
        strokeDasharray={series.dash?.join(' ')}
      />
      {series.end && <g transform="translate(7 0)">{SHAPES[series.end]}</g>}
    </svg>
  )
}

/** What each line and shape of a plot means, in words beside it. */
export function PlotKey({ plot }: { plot: Plot }) {
  return (
    <ul className="plot-key">
      {plot.series
        .filter(({ key }) => key)
        .map((series) => (
          <li key={series.key}>
            <Swatch series={series} />
            {series.key}
          </li>
        ))}
    </ul>
  )
}
