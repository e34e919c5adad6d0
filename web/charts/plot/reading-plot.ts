import type { ReadingFindings } from '#contract/findings/readings.ts'
import { counted } from '../../words/format-number.ts'
import { plotScale } from '../plot-scale.ts'
import type { Plot, Series } from './plot.ts'

type Gauge = ReadingFindings['items'][number]
type Bar = Gauge['bars'][number]

/** What a bar holds, in words: "26 to 26.5 in", "below 26 in". */
export const formatBar = ({ from, to }: Pick<Bar, 'from' | 'to'>, unit: string): string => {
  if (from !== null && to !== null) return from === to ? `${from} ${unit}` : `${from} to ${to} ${unit}`
  if (to !== null) return `below ${to} ${unit}`
  return from === null ? `any ${unit}` : `above ${from} ${unit}`
}

/** Readings of a gauge from low to high: a bar a step, solid within the band, hollow outside it, and where the band ends. */
export const readingPlot = ({ bars, unit }: Pick<Gauge, 'bars' | 'unit'>): Plot => {
  const up = plotScale(Math.max(...bars.map(({ count }) => count), 1))
  const points = (inside: boolean) =>
    bars.flatMap((bar, x) =>
      (bar.side === 'within') === inside && bar.count > 0
        ? [{ x, y: bar.count, says: [formatBar(bar, unit), counted(bar.count, 'reading')] }]
        : [],
    )
  const edges = bars.flatMap(({ side }, x) => (x > 0 && side !== bars[x - 1]?.side ? [x - 0.5] : []))
  const limits: Series[] = edges.map((x, index) => ({
    kind: 'line',
    key: index === 0 ? 'where the band ends' : undefined,
    ink: 'ink-2',
    dash: [6, 4],
    points: [
      { x, y: 0 },
      { x, y: up.top },
    ],
  }))
  const drawn: Series[] = [
    { kind: 'bars', key: 'within the band', ink: 'ink', solid: true, points: points(true) },
    { kind: 'bars', key: 'outside it', ink: 'open', solid: false, points: points(false) },
  ]
  return {
    across: {
      title: unit,
      from: -0.5,
      to: bars.length - 0.5,
      ticks: Array.from({ length: bars.length + 1 }, (_, index) => index - 0.5),
      say: (edge) => bars[edge + 0.5]?.from ?? bars[edge - 0.5]?.to ?? '',
    },
    up: { title: 'readings', from: 0, to: up.top, ticks: up.ticks, say: String },
    series: [...drawn.filter((one) => one.kind === 'bars' && one.points.length > 0), ...limits],
  }
}
