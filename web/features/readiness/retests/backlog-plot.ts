import type { BacklogPoint } from '#contract/readiness/retests.ts'
import type { Plot } from '../../../charts/plot/plot.ts'
import { formatMonthShort } from '../../../words/format-month.ts'

const MOST_TICKS = 9

/** The size of the backlog at the ends of months: all open retests, and of them those past due. */
export const backlogPlot = (points: readonly BacklogPoint[]): Plot => {
  const most = Math.max(...points.map(({ open }) => open), 4)
  const step = Math.max(1, Math.ceil(most / 5))
  const each = Math.ceil(points.length / MOST_TICKS)
  const says = ({ day, open, pastDue }: BacklogPoint) => [day, `${open} open`, `${pastDue} past due`]
  return {
    across: {
      title: '',
      from: -0.5,
      to: points.length - 0.5,
      ticks: points.map((_, at) => at).filter((at) => (points.length - 1 - at) % each === 0),
      say: (at) => (at === points.length - 1 ? 'today' : formatMonthShort(points[at]?.day.slice(0, 7) ?? '2026-01')),
    },
    up: {
      title: 'retests',
      from: 0,
      to: Math.ceil(most / step) * step,
      ticks: Array.from({ length: Math.ceil(most / step) + 1 }, (_, at) => at * step),
      say: String,
    },
    series: [
      {
        kind: 'line',
        key: 'open',
        ink: 'ink',
        end: 'disc',
        points: points.map((point, x) => ({ x, y: point.open, says: says(point) })),
      },
      {
        kind: 'line',
        key: 'past due',
        ink: 'open',
        dash: [6, 4],
        end: 'diamond',
        points: points.map((point, x) => ({ x, y: point.pastDue, says: says(point) })),
      },
    ],
  }
}
