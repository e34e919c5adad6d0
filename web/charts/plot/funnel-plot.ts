import type { SponsorFindings } from '#contract/findings/findings.ts'
import type { SponsorFunnelFindings } from '#contract/findings/sponsor-funnel.ts'
import { ofAll } from '../../words/of-all.ts'
import { plotScale } from '../plot-scale.ts'
import type { Plot, Series, Shape } from './plot.ts'
import { shareAxis } from './share-axis.ts'

type Sponsor = SponsorFindings['items'][number]
type Funnel = Pick<SponsorFunnelFindings, 'lines' | 'rate' | 'mostAttempts'>

const called = ({ differs }: Sponsor): boolean => differs === 'above' || differs === 'below'

const GROUPS: {
  key: string
  shape: Shape
  ink: 'ink' | 'ink-3' | 'open' | 'accent'
  has: (one: Sponsor) => boolean
}[] = [
  { key: 'fewer than five attempts', shape: 'ring', ink: 'ink-3', has: ({ differs }) => differs === 'few' },
  { key: 'can’t be told from the others', shape: 'disc', ink: 'ink', has: ({ differs }) => differs === 'no' },
  { key: 'more GO than chance allows', shape: 'up', ink: 'accent', has: ({ differs }) => differs === 'above' },
  { key: 'fewer GO than chance allows', shape: 'down', ink: 'open', has: ({ differs }) => differs === 'below' },
]

const limit = (
  lines: Funnel['lines'],
  level: 'usual' | 'called',
  end: 'low' | 'high',
  look: { key?: string; dash?: number[] },
): Series => ({
  kind: 'line',
  ink: 'ink-2',
  ...look,
  points: lines.map((line) => ({ x: line.attempts, y: line[level][end] })),
})

/**
 * Sponsors as a funnel: attempts across, GO up as the common rate more or less what their candidates had above or below such
 * candidates at large, with the limits that chance keeps within. Who differs is named, by `names` (by id).
 */
export const funnelPlot = (
  sponsors: readonly Sponsor[],
  { lines, rate, mostAttempts }: Funnel,
  names: ReadonlyMap<string, string>,
): Plot => {
  const across = plotScale(mostAttempts)
  const centre: Series[] =
    rate.rate === null
      ? []
      : [
          {
            kind: 'line',
            key: 'the unit',
            ink: 'ink',
            points: [
              { x: 0, y: rate.rate },
              { x: across.top, y: rate.rate },
            ],
          },
        ]
  const limits: Series[] =
    lines.length === 0
      ? []
      : [
          limit(lines, 'usual', 'low', { key: '19 in 20 who make no difference lie within', dash: [6, 4] }),
          limit(lines, 'usual', 'high', { dash: [6, 4] }),
          limit(lines, 'called', 'low', { key: 'outside, somebody is named', dash: [1.5, 3] }),
          limit(lines, 'called', 'high', { dash: [1.5, 3] }),
        ]
  const dots: Series[] = GROUPS.map(({ has, ...look }) => ({
    kind: 'marks',
    ...look,
    points: sponsors.filter(has).map((one) => ({
      x: one.attempts,
      y: Math.min(1, Math.max(0, (rate.rate ?? 0) + (one.passes - one.expected) / one.attempts)),
      says: [
        `${one.grade} ${one.name}`,
        `GO ${ofAll(one.passes, one.attempts)}, such candidates ${one.expected.toFixed(1)}`,
      ],
      ...(called(one) ? { name: names.get(one.sponsorId) ?? one.name } : {}),
    })),
  }))
  return {
    across: { title: 'attempts of their candidates', from: 0, to: across.top, ticks: across.ticks, say: String },
    up: shareAxis('GO, candidates allowed for', 1),
    series: [...limits, ...centre, ...dots.filter((one) => one.kind === 'marks' && one.points.length > 0)],
  }
}
