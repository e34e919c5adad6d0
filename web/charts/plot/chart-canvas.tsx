import type { Chart } from 'chart.js'
import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import type { ChartConfig } from './to-config.ts'

interface ChartCanvasProps {
  config: ChartConfig
  /** The drawing in one sentence, for whoever does not see it. */
  label: string
}

async function loadChart(): Promise<typeof Chart> {
  const [{ Chart: loaded }] = await Promise.all([import('./chart-js.ts'), document.fonts.ready])
  return loaded
}

/** Thrown while React draws, an error reaches the page that says so. */
function raise(error: unknown): never {
  throw error
}
/** In CSS pixels: about as wide as a page of paper, so that type on it is printed as large as on the screen. */
const PAPER_WIDTH = 720

/** The life of one Chart.js chart: made once when the library has come, changed in place, taken down at the end. */
export function ChartCanvas({ config, label }: ChartCanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const chart = useRef<Chart | null>(null)
  const latest = useRef(config)
  const [missing, setMissing] = useState(false)
  latest.current = config

  useEffect(() => {
    let gone = false
    const draw = (Made: typeof Chart) => {
      if (gone || !canvas.current) return
      chart.current = new Made(canvas.current, latest.current) as Chart
      canvas.current.dataset.drawn = ''
    }
    // Without a network the library may not come; whatever else goes wrong is a fault of ours, and is shown as one.
    loadChart()
      .then(draw, () => setMissing(true))
      .catch((error: unknown) => setMissing(() => raise(error)))
    return () => {
      gone = true
      chart.current?.destroy()
      chart.current = null
    }
  }, [])

  useEffect(() => {
    const toPaper = () => {
      const { current: drawn } = chart
      if (drawn && drawn.width > PAPER_WIDTH) drawn.resize(PAPER_WIDTH, drawn.height)
    }
    const toScreen = () => chart.current?.resize()
    window.addEventListener('beforeprint', toPaper)
    window.addEventListener('afterprint', toScreen)
    return () => {
      window.removeEventListener('beforeprint', toPaper)
      window.removeEventListener('afterprint', toScreen)
    }
  }, [])

  useLayoutEffect(() => {
    if (!chart.current) return
    chart.current.data = config.data as Chart['data']
    chart.current.options = config.options as Chart['options']
    chart.current.update('none')
  }, [config])

  if (missing) return <p className="muted">The drawing could not be loaded. Its figures stand in the list below.</p>
  return <canvas ref={canvas} role="img" aria-label={label} />
}
