import type { TrendFindings } from '#contract/findings/trend.ts'
import { formatMonth, formatMonthShort } from '../../words/format-month.ts'
import { formatShare } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'
import type { Plot, Series } from './plot.ts'
import { shareAxis } from './share-axis.ts'

type Point = TrendFindings['series'][number]['points'][number]

const MOST_TICKS = 12

const tested = (point: Point): point is Point & { rate: number; low: number; high: number } => point.rate !== null

const says = (point: Point & { rate: number; low: number; high: number }): string[] => [
  formatMonth(point.month),
  `NO-GO ${ofAll(point.count, point.n)}, ${formatShare(point.rate)}`,
  `limits ${formatShare(point.low)} and ${formatShare(point.high)}`,
]

/** One measure month by month: the share NO-GO, its centre, and the limits that widen where fewer were tested. */
export const monthPlot = ({ points, centre }: Pick<TrendFindings['series'][number], 'points' | 'centre'>): Plot => {
  const seen = points.map((point, x) => ({ point, x })).filter(({ point }) => tested(point))
  const limits = (end: 'low' | 'high') =>
    points.map((point, x) => ({ x, y: tested(point) ? Math.max(0, Math.min(1, point[end])) : null }))
  const marks = (
    key: string,
    look: Pick<Series & { kind: 'marks' }, 'shape' | 'ink'>,
    has: (point: Point) => boolean,
  ) => ({
    kind: 'marks' as const,
    key,
    ...look,
    points: seen.flatMap(({ point, x }) =>
      tested(point) && has(point) ? [{ x, y: point.rate, says: says(point) }] : [],
    ),
  })
  const isUnusual = ({ signals }: Point) => signals.length > 0
  const groups = [
    marks('usual', { shape: 'disc', ink: 'ink' }, (point) => !isUnusual(point) && point.beyond === null),
    marks(
      'outside, but as chance has it',
      { shape: 'hollow diamond', ink: 'ink' },
      (point) => !isUnusual(point) && point.beyond !== null,
    ),
    marks('unusual', { shape: 'diamond', ink: 'open' }, isUnusual),
  ]
  const greatest = Math.max(...seen.map(({ point }) => (tested(point) ? Math.max(point.rate, point.high) : 0)), 0)
  const each = Math.ceil(points.length / MOST_TICKS)
  return {
    across: {
      title: '',
      from: -0.5,
      to: points.length - 0.5,
      ticks: points.map((_, index) => index).filter((index) => (points.length - 1 - index) % each === 0),
      say: (index) => formatMonthShort(points[index]?.month ?? ''),
    },
    up: shareAxis('NO-GO of those tested', greatest),
    series: [
      { kind: 'line', key: 'limits', ink: 'ink-2', dash: [6, 4], steps: 'half way', points: limits('high') },
      { kind: 'line', ink: 'ink-2', dash: [6, 4], steps: 'half way', points: limits('low') },
      {
        kind: 'line',
        key: 'all months together',
        ink: 'ink-2',
        points: [
          { x: -0.5, y: centre },
          { x: points.length - 0.5, y: centre },
        ],
      },
      { kind: 'line', ink: 'ink', points: points.map((point, x) => ({ x, y: point.rate })) },
      ...groups.filter(({ points: some }) => some.length > 0),
    ],
  }
}
