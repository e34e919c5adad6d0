import type { Chart } from 'chart.js'
import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import type { ChartConfig } from './to-config.ts'

interface ChartCanvasProps {
  config: ChartConfig
  /** The drawing in one sentence, for whoever does not see it. */
  label: string
}

/** The life of one Chart.js chart: made once when the library has come, changed in place, taken down at the end. */
export function ChartCanvas({ config, label }: ChartCanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const chart = useRef<Chart | null>(null)
  const latest = useRef(config)
  const [failed, setFailed] = useState(false)
  latest.current = config

  useEffect(() => {
    let gone = false
    const make = async () => {
      const [{ Chart: Made }] = await Promise.all([import('./chart-js.ts'), document.fonts.ready])
      if (gone || !canvas.current) return
      chart.current = new Made(canvas.current, latest.current) as Chart
      canvas.current.dataset.drawn = ''
    }
    make().catch(() => setFailed(true))
    return () => {
      gone = true
      chart.current?.destroy()
      chart.current = null
    }
  }, [])

  useLayoutEffect(() => {
    if (!chart.current) return
    chart.current.data = config.data as Chart['data']
    chart.current.options = config.options as Chart['options']
    chart.current.update('none')
  }, [config])

  if (failed) return <p className="muted">The drawing could not be loaded. Its figures stand in the list below.</p>
  return <canvas ref={canvas} role="img" aria-label={label} />
}
