import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { shareAxis } from '../../charts/plot/share-axis.ts'
import { FEW } from '../../domain/findings/failing-order.ts'
import { ofAll } from '../../words/of-all.ts'
import type { FailingRow } from './failing-rows.ts'
import { formatFailingPicture, formatRate } from './format-failing.ts'
import { Picture } from './picture.tsx'

/** More rows than these are no picture any more; the list has them all. */
const DRAWN = 40

const KINDS = {
  shown: { key: 'share NO-GO', shape: 'disc', ink: 'ink' },
  few: { key: 'share NO-GO of fewer than five', shape: 'ring', ink: 'ink' },
} as const

interface FailingPictureProps {
  rows: readonly FailingRow[]
  nameOf: (row: FailingRow) => string
  title: string
  note: string
  file: string
  more?: string
}

/** Measures in the order in which they fail, each with its interval. */
export function FailingPicture({ rows, nameOf, title, note, file, more }: FailingPictureProps) {
  const drawn = rows.slice(0, DRAWN)
  const greatest = Math.max(...drawn.map(({ rate }) => (rate.few ? (rate.rate ?? 0) : (rate.interval?.high ?? 0))))
  const plot = rowsPlot({
    rows: drawn.map((row) => ({
      name: nameOf(row),
      at: row.rate.rate,
      span: row.rate.interval,
      kind: row.tested < FEW ? ('few' as const) : ('shown' as const),
      says: [`NO-GO ${ofAll(row.noGo, row.tested)}`, formatRate(row.rate)],
    })),
    across: shareAxis('NO-GO of those tested', greatest),
    kinds: KINDS,
    spanKey: 'where the true share lies, with 95 % confidence',
  })
  const says = [
    formatFailingPicture(drawn, (index) => (drawn[index] ? nameOf(drawn[index]) : '')),
    more,
    rows.length > DRAWN ? `Drawn are the ${DRAWN} that fail most; the list has all.` : '',
  ]
  return (
    <Picture
      title={title}
      note={note}
      plot={plot}
      says={says.filter(Boolean).join(' ')}
      file={file}
      figures={{
        head: [
          'standard',
          'measure',
          'name',
          'versions',
          'no_go',
          'tested',
          'rate',
          'low',
          'high',
          'incorrect',
          'trials',
        ],
        rows: rows.map((row) => [
          row.standard,
          row.measure,
          nameOf(row),
          row.versions.join(' '),
          row.noGo,
          row.tested,
          row.rate.rate,
          row.rate.interval?.low ?? null,
          row.rate.interval?.high ?? null,
          row.trials?.incorrect ?? null,
          row.trials?.of ?? null,
        ]),
      }}
    />
  )
}
