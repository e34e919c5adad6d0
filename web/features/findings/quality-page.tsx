import { useQuery } from '@tanstack/react-query'
import type { QualityFindings } from '#contract/findings/quality.ts'
import { qualityQuery } from '../../api/findings/findings-deep.ts'
import { coefficientAxis } from '../../charts/plot/coefficient-axis.ts'
import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { boundedFacts, fact } from '../../parts/readiness/facts.ts'
import { paths } from '../../paths.ts'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted } from '../../words/format-number.ts'
import { formatShare } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'
import { eraTitle } from './era-title.ts'
import { FindingPage } from './finding-page.tsx'
import {
  formatChange,
  formatCoefficientOf,
  formatQuality,
  formatQualityPicture,
  formatQualityWhy,
  formatRemarks,
} from './format-quality.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import { RestsOn } from './rests-on.tsx'
import { useFinding } from './use-finding.ts'

type Quality = QualityFindings['items'][number]
type Measure = Quality['measures'][number]

const KINDS = {
  goes: { key: 'goes with the rest', shape: 'disc', ink: 'ink' },
  rises: { key: 'the test tells more surely without it', shape: 'hollow diamond', ink: 'ink' },
  against: { key: 'works against the rest', shape: 'down', ink: 'open' },
} as const

const kindOf = ({ remarks }: Measure): keyof typeof KINDS =>
  remarks.includes('works-against-the-rest')
    ? 'against'
    : remarks.includes('reliability-rises-without')
      ? 'rises'
      : 'goes'

const keyOf = ({ standard, versions }: Quality): string => `${standard}/${versions.join('.')}`

/** How well a standard works as a test, and what each measure adds. */
export default function QualityPage() {
  const finding = useFinding()
  const [{ test }, setTest] = useFilters(['test'])
  const query = useQuery(qualityQuery(finding.filters))
  const items = query.data?.items
  const shown = items?.find((one) => keyOf(one) === test) ?? [...(items ?? [])].sort((a, b) => b.sheets - a.sheets)[0]
  const titleOf = (one: Quality) => eraTitle(finding.standardOf(one), one)
  const nameOf = ({ measure }: Measure) =>
    shown ? finding.titleOf({ standard: shown.standard, measure, versions: [], current: true }) : measure
  const measures = [...(shown?.measures ?? [])].sort((a, b) => (b.itemRest.value ?? -2) - (a.itemRest.value ?? -2))
  const ends = measures.flatMap(({ itemRest }) => (itemRest.interval ? Object.values(itemRest.interval) : []))

  return (
    <FindingPage
      here={paths.quality}
      title="Standards as tests"
      finding={finding}
      firstTests
      query={query}
      answer={items && formatQuality(shown, shown ? titleOf(shown) : '')}
      why={items && formatQualityWhy(shown)}
      choices={
        items &&
        items.length > 1 && (
          <SelectField
            label="Test"
            value={shown ? keyOf(shown) : ''}
            onChange={(event) => setTest({ test: event.target.value })}
          >
            {items.map((one) => (
              <option key={keyOf(one)} value={keyOf(one)}>
                {titleOf(one)}
              </option>
            ))}
          </SelectField>
        )
      }
    >
      {shown && (
        <>
          <Picture
            title="What each measure adds"
            note={titleOf(shown)}
            plot={rowsPlot({
              rows: measures.map((measure) => ({
                name: nameOf(measure),
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
                nameOf(measure),
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
          <Section title="Measures in figures" note={counted(measures.length, 'measure')}>
            <Table<(typeof measures)[number]>
              caption={`Measures of ${titleOf(shown)}`}
              rows={measures}
              rowKey={({ measure }) => measure}
              columns={[
                {
                  head: 'Measure',
                  facts: [fact('Measure', nameOf)],
                  cell: (measure) => <b>{nameOf(measure)}</b>,
                },
                {
                  head: 'GO, high when easy',
                  facts: [
                    fact('GO', ({ difficulty }) => difficulty.count),
                    fact('Tests', ({ difficulty }) => difficulty.n),
                    ...boundedFacts<(typeof measures)[number]>('Share GO', ({ difficulty }) => ({
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
        </>
      )}
      {items && !shown && <NoneFound title="Measures">No counted test lies within these filters.</NoneFound>}
      {query.data && <RestsOn basis={query.data.basis} />}
    </FindingPage>
  )
}
