import type { QualityFindings } from '#contract/findings/quality.ts'
import { coefficientAxis } from '../../charts/plot/coefficient-axis.ts'
import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { formatCoefficientOf, formatQualityPicture } from './format-quality.ts'
import { Picture } from './picture.tsx'
import type { NamedMeasure } from './quality-table.tsx'

type Quality = QualityFindings['items'][number]

const KINDS = {
  goes: { key: 'goes with the rest', shape: 'disc', ink: 'ink' },
  rises: { key: 'the test tells more surely without it', shape: 'hollow diamond', ink: 'ink' },
  against: { key: 'works against the rest', shape: 'down', ink: 'open' },
} as const

const kindOf = ({ remarks }: NamedMeasure): keyof typeof KINDS =>
  remarks.includes('works-against-the-rest')
    ? 'against'
    : remarks.includes('reliability-rises-without')
      ? 'rises'
      : 'goes'

interface MeasuresPictureProps {
  shown: Quality
  /** Those of the standard, in the order they are drawn in. */
  measures: readonly NamedMeasure[]
  title: string
}

/** How far each measure of a standard goes with the rest of it. */
export function MeasuresPicture({ shown, measures, title }: MeasuresPictureProps) {
  const ends = measures.flatMap(({ itemRest }) => (itemRest.interval ? Object.values(itemRest.interval) : []))
  return (
    <Picture
      title="What each measure adds"
      note={title}
      plot={rowsPlot({
        rows: measures.map((measure) => ({
          name: measure.name,
          at: measure.itemRest.value,
          span: measure.itemRest.interval,
          kind: kindOf(measure),
          says: [formatCoefficientOf(measure.itemRest)],
        })),
        across: coefficientAxis('goes with the score on all other measures', ends),
        kinds: KINDS,
        spanKey: 'where the true figure lies, with 95 % confidence',
        against: [{ at: 0, key: 'tells nothing' }],
      })}
      says={formatQualityPicture(shown)}
      file={`standard-${shown.standard}`}
      figures={{
        head: [
          'measure',
          'name',
          'go',
          'tests',
          'item_rest',
          'low',
          'high',
          'kr20_without',
          'change',
          'change_low',
          'change_high',
          'remarks',
        ],
        rows: measures.map((measure) => [
          measure.measure,
          measure.name,
          measure.difficulty.count,
          measure.difficulty.n,
          measure.itemRest.value,
          measure.itemRest.interval?.low ?? null,
          measure.itemRest.interval?.high ?? null,
          measure.ifDeleted.value,
          measure.change?.value ?? null,
          measure.change?.interval.low ?? null,
          measure.change?.interval.high ?? null,
          measure.remarks.join(' '),
        ]),
      }}
    />
  )
}
