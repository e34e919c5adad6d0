import type { UseQueryResult } from '@tanstack/react-query'
import type { AgreementFindings } from '#contract/findings/agreement.ts'
import { coefficientAxis } from '../../charts/plot/coefficient-axis.ts'
import { rowsPlot } from '../../charts/plot/rows-plot.ts'
import { FEW } from '../../domain/findings/failing-order.ts'
import { boundedFacts, fact } from '../../parts/readiness/facts.ts'
import { Failure } from '../../ui/failure.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { figure } from '../../words/format-number.ts'
import { formatAgreement, formatTwiceGraded } from './format-graders.ts'
import { NoneFound } from './none-found.tsx'
import { Picture } from './picture.tsx'
import type { useFinding } from './use-finding.ts'

type Item = AgreementFindings['items'][number]

/** More rows than these are no picture any more; the list has them all. */
const DRAWN = 30

const KINDS = {
  sure: { key: 'agreement beyond chance', shape: 'disc', ink: 'ink' },
  never: { key: 'never disagreed, so without a line', shape: 'hollow diamond', ink: 'ink' },
  few: { key: 'fewer than five attempts', shape: 'ring', ink: 'ink-3' },
} as const

const kindOf = ({ attempts, ac1 }: Item): keyof typeof KINDS =>
  attempts < FEW ? 'few' : ac1.interval === null ? 'never' : 'sure'

interface AgreementPartProps {
  query: UseQueryResult<AgreementFindings>
  finding: ReturnType<typeof useFinding>
}

/** How far graders agree on attempts graded twice: on whole tests and on each measure. */
export function AgreementPart({ query, finding }: AgreementPartProps) {
  const { data, error, refetch } = query
  if (error && !data) {
    return (
      <Section title="Graded twice">
        <Failure error={error} onRetry={refetch} />
      </Section>
    )
  }
  if (!data) return null
  const items = data.items.filter(({ attempts }) => attempts > 0)
  if (items.length === 0) return <NoneFound title="Graded twice">{formatTwiceGraded(data)}</NoneFound>
  const nameOf = (item: Item) =>
    item.measure === null
      ? `Whole test, ${finding.standardOf(item)}`
      : finding.titleOf({ ...item, measure: item.measure })
  const fullName = (item: Item) =>
    item.measure === null ? nameOf(item) : `${nameOf(item)}, ${finding.standardOf(item)}`
  const oneStandard = new Set(items.map(({ standard }) => standard)).size === 1
  const drawn = items
    .filter(({ ac1 }) => ac1.value !== null)
    .sort((a, b) => Number(b.measure === null) - Number(a.measure === null) || (a.ac1.value ?? 0) - (b.ac1.value ?? 0))
    .slice(0, DRAWN)
  const ends = drawn.flatMap(({ ac1 }) => [ac1.value ?? 0, ac1.interval?.low ?? 0])
  return (
    <>
      <Picture
        title="Graded twice"
        note={`whole tests first, then where graders agree least${drawn.length < items.length ? `; ${drawn.length} of ${items.length}` : ''}`}
        plot={rowsPlot({
          rows: drawn.map((item) => ({
            name: oneStandard ? nameOf(item) : fullName(item),
            at: item.ac1.value,
            span: item.ac1.interval,
            kind: kindOf(item),
            says: [formatAgreement(item.ac1)],
          })),
          across: coefficientAxis('agreement beyond chance (AC1)', [1, ...ends]),
          kinds: KINDS,
          spanKey: 'where the true figure lies, with 95 % confidence',
          against: [{ at: 0, key: 'as chance has it' }],
        })}
        says={formatTwiceGraded(data)}
        file="graded-twice"
        figures={{
          head: [
            'standard',
            'measure',
            'attempts',
            'both_go',
            'first_go_only',
            'second_go_only',
            'both_no_go',
            'fleiss',
            'ac1',
            'ac1_low',
            'ac1_high',
          ],
          rows: items.map((item) => [
            item.standard,
            item.measure ?? 'whole test',
            item.attempts,
            item.table.bothGo,
            item.table.firstGoOnly,
            item.table.secondGoOnly,
            item.table.bothNoGo,
            item.fleiss.value,
            item.ac1.value,
            item.ac1.interval?.low ?? null,
            item.ac1.interval?.high ?? null,
          ]),
        }}
      />
      <Section title="Graded twice in figures" note="the first grader beside the second">
        <Table<Item>
          caption="Agreement by measure"
          rows={items}
          rowKey={({ standard, measure, versions }) => `${standard} ${measure} ${versions.join()}`}
          columns={[
            {
              head: 'Measure',
              facts: [fact('Measure', nameOf), fact('Standard', (item) => finding.standardOf(item))],
              cell: (item) => (
                <>
                  <b>{nameOf(item)}</b>{' '}
                  {item.measure !== null && !oneStandard && <span className="muted">{finding.standardOf(item)}</span>}
                </>
              ),
            },
            { head: 'Attempts', numeric: true, cell: ({ attempts }) => figure(attempts) },
            { head: 'Both GO', numeric: true, cell: ({ table }) => figure(table.bothGo) },
            { head: 'Both NO-GO', numeric: true, cell: ({ table }) => figure(table.bothNoGo) },
            {
              head: 'Disagreed',
              facts: [
                fact('Only the first GO', ({ table }) => table.firstGoOnly),
                fact('Only the second GO', ({ table }) => table.secondGoOnly),
              ],
              numeric: true,
              cell: ({ table }) => figure(table.firstGoOnly + table.secondGoOnly),
            },
            {
              head: 'Fleiss’ kappa',
              facts: boundedFacts('Fleiss’ kappa', ({ fleiss }) => fleiss),
              cell: ({ fleiss }) => formatAgreement(fleiss),
            },
            { head: 'AC1', facts: boundedFacts('AC1', ({ ac1 }) => ac1), cell: ({ ac1 }) => formatAgreement(ac1) },
          ]}
        />
      </Section>
    </>
  )
}
