import type { ChartConfiguration, ChartDataset, PointStyle, ScaleOptionsByType, TooltipOptions } from 'chart.js'
import type { Look } from './look.ts'
import type { Axis, Ink, Plot, Series, Shape } from './plot.ts'
import { pointNames, pointNamesIn } from './point-names.ts'

interface Datum {
  x: number | null
  y: number | null
  says?: readonly string[]
  name?: string
}

type Kind = 'bar' | 'line' | 'scatter'
export type ChartConfig = ChartConfiguration<Kind, Datum[]>
type Dataset = ChartDataset<Kind, Datum[]>

const STYLES: Record<Shape, { pointStyle: PointStyle; radius: number; rotation?: number; hollow?: boolean }> = {
  disc: { pointStyle: 'circle', radius: 5 },
  ring: { pointStyle: 'circle', radius: 4.5, hollow: true },
  diamond: { pointStyle: 'rectRot', radius: 7.5 },
  'hollow diamond': { pointStyle: 'rectRot', radius: 6.5, hollow: true },
  square: { pointStyle: 'rect', radius: 5.5 },
  up: { pointStyle: 'triangle', radius: 7.5 },
  down: { pointStyle: 'triangle', radius: 7.5, rotation: 180 },
  cross: { pointStyle: 'cross', radius: 4.5, hollow: true },
  bar: { pointStyle: 'line', radius: 7, rotation: 90, hollow: true },
}

const HIT_RADIUS = 8
const CAP = { pointStyle: 'line', pointRotation: 90, pointRadius: 4 } as const

/** Names of rows stand over what they name where there is no room beside it. */
const NARROW_LABEL_LIFT = 15

const marked = (shape: Shape | undefined, colour: string, { ink }: Look) => {
  if (!shape) return { pointRadius: 0, pointHitRadius: HIT_RADIUS }
  const { pointStyle, radius, rotation = 0, hollow } = STYLES[shape]
  return {
    pointStyle,
    pointRadius: radius,
    pointHoverRadius: radius,
    pointRotation: rotation,
    pointHitRadius: HIT_RADIUS,
    pointBackgroundColor: hollow ? ink.paper : colour,
    pointHoverBackgroundColor: hollow ? ink.paper : colour,
    pointBorderColor: colour,
    pointHoverBorderColor: colour,
    pointBorderWidth: hollow ? 2 : 1,
    pointHoverBorderWidth: hollow ? 2 : 1,
  }
}

const toDataset = (series: Series, look: Look, order: number): Dataset => {
  const colour = look.ink[series.ink satisfies Ink]
  const base = { label: series.key ?? '', order, borderColor: colour, backgroundColor: colour, clip: false as const }
  if (series.kind === 'marks') {
    return { ...base, type: 'scatter', data: [...series.points], ...marked(series.shape, colour, look) }
  }
  if (series.kind === 'line') {
    return {
      ...base,
      type: 'line',
      data: [...series.points],
      borderWidth: series.width ?? 1.5,
      borderDash: [...(series.dash ?? [])],
      stepped: series.steps === 'held' ? 'before' : series.steps === 'half way' ? 'middle' : false,
      ...marked(series.end, colour, look),
      pointRadius: series.points.map((_, index) =>
        series.end && index === series.points.length - 1 ? STYLES[series.end].radius : 0,
      ),
    }
  }
  if (series.kind === 'spans') {
    const data = series.spans.flatMap(({ low, high, y }) => [
      { x: low, y },
      { x: high, y },
      { x: null, y: null },
    ])
    return { ...base, type: 'line', data, borderWidth: 2, pointBorderColor: colour, pointHitRadius: 0, ...CAP }
  }
  return {
    ...base,
    type: 'bar',
    data: [...series.points],
    backgroundColor: series.solid ? colour : look.ink.paper,
    hoverBackgroundColor: series.solid ? colour : look.ink.paper,
    borderWidth: 2,
    grouped: false,
    barPercentage: 1,
    categoryPercentage: 0.86,
  }
}

type Scale = ScaleOptionsByType<'linear'>
type Part<Whole> = { [Key in keyof Whole]?: Whole[Key] extends object ? Part<Whole[Key]> : Whole[Key] }

const toScale = (axis: Axis, side: 'across' | 'up', look: Look, narrow: boolean): Part<Scale> => {
  const lifted = Boolean(axis.rows) && narrow
  return {
    type: 'linear',
    min: axis.from,
    max: axis.to,
    reverse: Boolean(axis.rows),
    title: {
      display: axis.title !== '',
      text: axis.title,
      color: look.ink['ink-2'],
      align: side === 'across' ? 'center' : 'end',
      font: { family: look.font, size: look.size },
    },
    grid: { color: look.ink.hair, display: !axis.rows, drawTicks: false },
    border: { color: look.ink.rule, display: !lifted },
    afterBuildTicks: (scale: { ticks: { value: number }[] }) => {
      scale.ticks = axis.ticks.map((value) => ({ value }))
    },
    ticks: {
      autoSkip: !axis.rows,
      autoSkipPadding: 12,
      maxRotation: 0,
      padding: lifted ? 0 : 8,
      color: look.ink[axis.rows ? 'ink' : 'ink-2'],
      font: { family: look.font, size: axis.rows ? look.size * 1.08 : look.size },
      callback: (value: number | string) => axis.say(Number(value)),
      mirror: lifted,
      labelOffset: lifted ? -NARROW_LABEL_LIFT : 0,
      z: lifted ? 1 : 0,
    },
  } as Part<Scale>
}

const toTooltip = ({ ink, font, size }: Look) =>
  ({
    backgroundColor: ink.ink,
    bodyColor: ink.paper,
    bodyFont: { family: font, size: size * 1.08 },
    displayColors: false,
    cornerRadius: 3,
    padding: 10,
    filter: ({ raw }: { raw: unknown }, index: number) => index < 6 && (raw as Datum).says !== undefined,
    callbacks: { title: () => '', label: ({ raw }: { raw: unknown }) => [...((raw as Datum).says ?? [])] },
  }) as unknown as TooltipOptions<Kind>

/** Layer two: a plot on its axes as a Chart.js configuration, in the look of the page. `narrow`: row names go above. */
export const toConfig = (plot: Plot, look: Look, narrow: boolean): ChartConfig => ({
  type: 'scatter',
  plugins: [pointNames],
  data: { datasets: plot.series.map((series, index) => toDataset(series, look, plot.series.length - index)) },
  options: {
    animation: false,
    responsive: true,
    maintainAspectRatio: false,
    interaction: { mode: 'nearest', intersect: true },
    layout: { padding: { top: 6, right: 14 } },
    plugins: { tooltip: toTooltip(look), ...pointNamesIn(look) },
    scales: {
      x: toScale(plot.across, 'across', look, narrow),
      y: toScale(plot.up, 'up', look, narrow),
    } as NonNullable<ChartConfig['options']>['scales'],
  },
})
