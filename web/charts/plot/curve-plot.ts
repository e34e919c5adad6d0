import type { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import { countedInWords } from '../../words/format-number.ts'
import { formatShare } from '../../words/format-share.ts'
import { plotScale } from '../plot-scale.ts'
import type { Ink, Plot, Series, Shape } from './plot.ts'
import { shareAxis } from './share-axis.ts'

type Curve = TimeToCertify['items'][number]['all']

/** So many lines can be told apart. */
export const MOST_CURVES = 6

const LOOKS: { ink: Ink; end: Shape; dash: readonly number[] }[] = [
  { ink: 'ink', end: 'disc', dash: [] },
  { ink: 'accent', end: 'square', dash: [9, 4] },
  { ink: 'open', end: 'up', dash: [2, 3] },
  { ink: 'retest-due', end: 'hollow diamond', dash: [12, 4, 2, 4] },
  { ink: 'ink-2', end: 'ring', dash: [5, 3] },
  { ink: 'ink-3', end: 'down', dash: [1.5, 5] },
]

const start = { x: 0, y: 0 }

const climb = (name: string, { points }: Curve) => [
  start,
  ...points.map(({ day, uncertified, certified, atRisk }) => ({
    x: day,
    y: 1 - uncertified,
    says: [
      `${name}: ${formatShare(1 - uncertified)} certified`,
      `within ${countedInWords(day, 'day')}; ${certified} of ${atRisk} still in training that day`,
    ],
  })),
]

const ends = ({ points }: Curve, ink: Ink): Series => ({
  kind: 'marks',
  ink,
  shape: 'cross',
  points: points
    .filter(({ censored }) => censored > 0)
    .map(({ day, uncertified, censored }) => ({
      x: day,
      y: 1 - uncertified,
      says: [`${countedInWords(censored, 'soldier')} seen for ${day} days, not certified`],
    })),
})

const half = (to: number): Series => ({
  kind: 'line',
  key: 'half of them',
  ink: 'rule',
  points: [
    { x: 0, y: 0.5 },
    { x: to, y: 0.5 },
  ],
})

const withKey = (series: Series, key: string): Series => ({ ...series, key })

/** How many are certified by which day: all together with interval (one curve), or a curve each. Crosses: not seen longer. */
export const curvePlot = (curves: readonly { name: string; curve: Curve }[], startTitle: string): Plot => {
  const last = Math.max(...curves.flatMap(({ curve }) => curve.points.map(({ day }) => day)), 1)
  const across = plotScale(last)
  const [only] = curves
  const limits: Series[] =
    only && curves.length === 1
      ? (['low', 'high'] as const).map((end, index) => ({
          kind: 'line',
          key: index === 0 ? 'where the true share lies, with 95 % confidence' : undefined,
          ink: 'ink-2',
          dash: [6, 4],
          steps: 'held',
          points: only.curve.points.map(({ day, interval }) => ({ x: day, y: interval && 1 - interval[end] })),
        }))
      : []
  const lines = curves.slice(0, MOST_CURVES).map(
    ({ name, curve }, index): Series => ({
      kind: 'line',
      key: name,
      width: 2.5,
      steps: 'held',
      points: climb(name, curve),
      ...LOOKS[index]!,
      end: curves.length > 1 ? LOOKS[index]!.end : undefined,
    }),
  )
  const crosses = curves
    .slice(0, MOST_CURVES)
    .map(({ curve }, index) => ends(curve, LOOKS[index]!.ink))
    .filter((one) => one.kind === 'marks' && one.points.length > 0)
    .map((one, index) => (index === 0 ? withKey(one, 'still waiting when last seen') : one))
  return {
    across: { title: `days ${startTitle}`, from: 0, to: across.top, ticks: across.ticks, say: String },
    up: shareAxis('certified', 1),
    series: [half(across.top), ...limits, ...lines, ...crosses],
  }
}
