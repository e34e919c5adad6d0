import type { Plot, Series, Shape } from './plot.ts'

const SHAPES: Record<Shape, string> = {
  disc: 'disc',
  ring: 'ring',
  diamond: 'diamond',
  'hollow diamond': 'hollow diamond',
  square: 'square',
  up: 'triangle up',
  down: 'triangle down',
  cross: 'cross',
  bar: 'upright stroke',
}

const LONG_DASH = 4

const formatLook = (series: Series): string => {
  if (series.kind === 'marks') return SHAPES[series.shape]
  if (series.kind === 'spans') return 'line through a mark'
  if (series.kind === 'bars') return series.solid ? 'solid bar' : 'hollow bar'
  if (series.end) return `line that ends in a ${SHAPES[series.end]}`
  if (!series.dash || series.dash.length === 0) return (series.width ?? 0) > 2 ? 'heavy line' : 'line'
  return (series.dash[0] ?? 0) >= LONG_DASH ? 'dashed line' : 'dotted line'
}

/** The key of a plot in words, for where the picture stands alone: "Ring: fewer than five attempts. Dashed line: limits." */
export const formatKey = ({ series }: Pick<Plot, 'series'>): string =>
  series
    .filter(({ key }) => key)
    .map((one) => {
      const look = formatLook(one)
      return `${look.charAt(0).toUpperCase()}${look.slice(1)}: ${one.key}.`
    })
    .join(' ')
