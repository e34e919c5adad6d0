import type { QualityFindings } from '#contract/findings/quality.ts'
import { boundedFacts, fact } from '../../parts/readiness/facts.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { counted } from '../../words/format-number.ts'
import { formatShare } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'
import { formatChange, formatCoefficientOf, formatRemarks } from './format-quality.ts'

/** A measure of a standard, by the name it is shown under. */
export type NamedMeasure = QualityFindings['items'][number]['measures'][number] & { name: string }

/** What each measure adds to the test, in figures. */
export function MeasuresTable({ measures, title }: { measures: readonly NamedMeasure[]; title: string }) {
  return (
    <Section title="Measures in figures" note={counted(measures.length, 'measure')}>
      <Table<NamedMeasure>
        caption={`Measures of ${title}`}
        rows={measures}
        rowKey={({ measure }) => measure}
        columns={[
          {
            head: 'Measure',
            facts: [fact('Measure', ({ name }) => name)],
            cell: ({ name }) => <b>{name}</b>,
          },
          {
            head: 'GO, high when easy',
            facts: [
              fact('GO', ({ difficulty }) => difficulty.count),
              fact('Tests', ({ difficulty }) => difficulty.n),
              ...boundedFacts<NamedMeasure>('Share GO', ({ difficulty }) => ({
                value: difficulty.rate,
                interval: difficulty.interval,
              })),
            ],
            numeric: true,
            tight: true,
            cell: ({ difficulty: { count, n, rate } }) =>
              `${ofAll(count, n)}${rate === null ? '' : `, ${formatShare(rate)}`}`,
          },
          {
            head: 'Goes with the rest',
            facts: boundedFacts('Goes with the rest', ({ itemRest }) => itemRest),
            numeric: true,
            cell: ({ itemRest }) => formatCoefficientOf(itemRest),
          },
          {
            head: 'KR-20 without it',
            facts: boundedFacts('KR-20 without it', ({ ifDeleted }) => ifDeleted),
            numeric: true,
            cell: ({ ifDeleted }) => formatCoefficientOf(ifDeleted),
          },
          { head: 'Change by that', numeric: true, cell: ({ change }) => formatChange(change) },
          { head: 'Remark', bare: true, cell: ({ remarks }) => formatRemarks(remarks) },
        ]}
      />
    </Section>
  )
}
