import type { ForecastFindings } from '#contract/findings/forecast.ts'
import { formatShare } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'
import type { Plot } from './plot.ts'
import { shareAxis } from './share-axis.ts'

type Bin = ForecastFindings['bins'][number]

/** What was forecast across, what came of it up, with limits; right forecasts lie on the line. */
export const reliabilityPlot = (bins: readonly Bin[]): Plot => {
  const drawn = bins.filter(({ n }) => n > 0)
  return {
    across: shareAxis('forecast to pass', 1),
    up: shareAxis('of these passed', 1),
    series: [
      {
        kind: 'line',
        key: 'as forecast',
        ink: 'ink-2',
        dash: [5, 4],
        points: [
          { x: 0, y: 0 },
          { x: 1, y: 1 },
        ],
      },
      ...drawn.map(
        ({ forecast, low, high }, at) =>
          ({
            kind: 'line',
            ...(at === 0 ? { key: '95 % limits of what came' } : {}),
            ink: 'ink-3',
            width: 1.5,
            points: [
              { x: forecast, y: low },
              { x: forecast, y: high },
            ],
          }) as const,
      ),
      {
        kind: 'marks',
        key: 'tests of a like forecast',
        ink: 'ink',
        shape: 'disc',
        points: drawn.map(({ forecast, passed, n }) => ({
          x: forecast,
          y: passed,
          says: [`forecast ${formatShare(forecast)}`, `passed ${ofAll(Math.round(passed * n), n)}`],
        })),
      },
    ],
  }
}
