import type { SponsorFindings } from '#contract/findings/findings.ts'
import type { SponsorFunnelFindings } from '#contract/findings/sponsor-funnel.ts'
import { ofAll } from '../../words/of-all.ts'
import { plotScale } from '../plot-scale.ts'
import type { Plot, Series, Shape } from './plot.ts'
import { shareAxis } from './share-axis.ts'

type Sponsor = SponsorFindings['items'][number]
type Funnel = SponsorFunnelFindings['all']

const few = ({ all }: Sponsor) => all.rate.few
const side = ({ all: { funnel } }: Sponsor) => (funnel?.verdict === 'differs' ? funnel.side : null)

const GROUPS: {
  key: string
  shape: Shape
  ink: 'ink' | 'ink-3' | 'open' | 'accent'
  has: (one: Sponsor) => boolean
}[] = [
  { key: 'fewer than five attempts', shape: 'ring', ink: 'ink-3', has: (one) => few(one) && side(one) === null },
  { key: 'can’t be told from the unit', shape: 'disc', ink: 'ink', has: (one) => !few(one) && side(one) === null },
  { key: 'above, more than chance allows', shape: 'up', ink: 'accent', has: (one) => side(one) === 'above' },
  { key: 'below, more than chance allows', shape: 'down', ink: 'open', has: (one) => side(one) === 'below' },
]

const limit = (
  lines: Funnel['lines'],
  level: 'limits95' | 'limits998',
  end: 'low' | 'high',
  look: { key?: string; dash?: number[] },
): Series => ({
  kind: 'line',
  ink: 'ink-2',
  ...look,
  points: lines.map((line) => ({ x: line.attempts, y: line[level][end] })),
})

/**
 * Sponsors as a funnel: attempts across, share GO up, the common rate and the limits that chance keeps within. Who lies
 * outside is named, by `names` (by id).
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
          limit(lines, 'limits95', 'low', { key: '95 % of results by chance lie within', dash: [6, 4] }),
          limit(lines, 'limits95', 'high', { dash: [6, 4] }),
          limit(lines, 'limits998', 'low', { key: '99.8 % lies within', dash: [1.5, 3] }),
          limit(lines, 'limits998', 'high', { dash: [1.5, 3] }),
        ]
  const dots: Series[] = GROUPS.map(({ has, ...look }) => ({
    kind: 'marks',
    ...look,
    points: sponsors.filter(has).map((one) => ({
      x: one.attempts,
      y: one.attempts === 0 ? 0 : one.passes / one.attempts,
      says: [`${one.grade} ${one.name}`, `GO ${ofAll(one.passes, one.attempts)}`],
      ...(side(one) === null ? {} : { name: names.get(one.sponsorId) ?? one.name }),
    })),
  }))
  return {
    across: { title: 'attempts of their candidates', from: 0, to: across.top, ticks: across.ticks, say: String },
    up: shareAxis('of these GO', 1),
    series: [...limits, ...centre, ...dots.filter((one) => one.kind === 'marks' && one.points.length > 0)],
  }
}
