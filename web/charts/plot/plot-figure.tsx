import { useMemo, useRef } from 'react'
import { useMedia } from '../../ui/use-media.ts'
import { ChartCanvas } from './chart-canvas.tsx'
import type { Plot } from './plot.ts'
import { PlotKey } from './plot-key.tsx'
import { toConfig } from './to-config.ts'
import { useLook } from './use-look.ts'
import './plot-figure.css'

interface PlotFigureProps {
  plot: Plot
  /** The drawing in one sentence, for whoever does not see it. */
  label: string
  /** In rem, of a plot without rows. */
  height?: number
}

const ROW_REM = { wide: 1.75, narrow: 2.75 }
const AXIS_REM = 3.5
const USUAL_REM = 22

/** Below so much room the names of rows go above what they name. */
const NARROW = '(max-width: 47.99rem)'

/** A plot with its key. The room is taken before it is drawn, so that nothing moves. */
export function PlotFigure({ plot, label, height: asked = USUAL_REM }: PlotFigureProps) {
  const frame = useRef<HTMLDivElement>(null)
  const look = useLook(frame)
  const narrow = useMedia(NARROW)
  const config = useMemo(() => look && toConfig(plot, look, narrow), [plot, look, narrow])
  const rows = plot.up.rows ? plot.up.ticks.length : 0
  const height = rows > 0 ? rows * (narrow ? ROW_REM.narrow : ROW_REM.wide) + AXIS_REM : asked
  return (
    <figure className="plot">
      <div className="plot-canvas" ref={frame} style={{ height: `${height}rem` }}>
        {config && <ChartCanvas config={config} label={label} />}
      </div>
      <PlotKey plot={plot} />
    </figure>
  )
}
