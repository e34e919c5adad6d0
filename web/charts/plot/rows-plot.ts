import type { Axis, Ink, Plot, Series, Shape } from './plot.ts'

/** How one kind of row is marked. */
export interface RowKind {
  key: string
  shape: Shape
  ink: Ink
}

export interface PlotRow<Kind extends string> {
  name: string
  /** Null: there is no figure; the row stands empty. */
  at: number | null
  span: { low: number; high: number } | null
  kind: Kind
  says: readonly string[]
}

interface RowsPlotProps<Kind extends string> {
  rows: readonly PlotRow<Kind>[]
  across: Axis
  kinds: Record<Kind, RowKind>
  /** What the line through each mark is. */
  spanKey: string
  /** Upright lines that rows are held against. */
  against?: readonly { at: number; key: string }[]
  /** A second mark a row. */
  beside?: { key: string; shape: Shape; at: readonly (number | null)[] }
}

/** Layer three, of rows with a name: a mark each on a common axis, with its interval as a line through it. */
export const rowsPlot = <Kind extends string>({
  rows,
  across,
  kinds,
  spanKey,
  against = [],
  beside,
}: RowsPlotProps<Kind>): Plot => {
  const within = (value: number) => Math.min(across.to, Math.max(across.from, value))
  const lines: Series[] = against.map(({ at, key }) => ({
    kind: 'line',
    key,
    ink: 'ink-2',
    dash: [5, 4],
    points: [
      { x: at, y: -0.5 },
      { x: at, y: rows.length - 0.5 },
    ],
  }))
  const spans: Series = {
    kind: 'spans',
    key: spanKey,
    ink: 'ink-3',
    spans: rows.flatMap(({ span }, y) => (span ? [{ low: within(span.low), high: within(span.high), y }] : [])),
  }
  const second: Series[] = beside
    ? [
        {
          kind: 'marks',
          key: beside.key,
          ink: 'ink-2',
          shape: beside.shape,
          points: beside.at.flatMap((x, y) => (x === null ? [] : [{ x: within(x), y }])),
        },
      ]
    : []
  const marks: Series[] = (Object.entries(kinds) as [Kind, RowKind][]).map(([kind, look]) => ({
    kind: 'marks',
    ...look,
    points: rows.flatMap((row, y) =>
      row.kind === kind && row.at !== null ? [{ x: within(row.at), y, says: [row.name, ...row.says] }] : [],
    ),
  }))
  const drawn = [spans, ...second, ...marks].filter((one) =>
    one.kind === 'spans' ? one.spans.length > 0 : one.kind === 'marks' && one.points.length > 0,
  )
  return {
    across,
    up: {
      title: '',
      from: -0.7,
      to: rows.length - 0.5,
      ticks: rows.map((_, index) => index),
      say: (index) => rows[index]?.name ?? '',
      rows: true,
    },
    series: [...lines, ...drawn],
  }
}
