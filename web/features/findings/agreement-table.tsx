import type { AgreementFindings } from '#contract/findings/agreement.ts'
import { boundedFacts, fact } from '../../parts/readiness/facts.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { figure } from '../../words/format-number.ts'
import { formatAgreement } from './format-graders.ts'

/** Agreement on a whole test or one of its measures, by the names they are shown under. */
export type NamedAgreement = AgreementFindings['items'][number] & { name: string; standardName: string }

export const isOneStandard = (items: readonly NamedAgreement[]): boolean =>
  new Set(items.map(({ standard }) => standard)).size === 1

/** The first grader beside the second, in figures. */
export function AgreementTable({ items }: { items: readonly NamedAgreement[] }) {
  const oneStandard = isOneStandard(items)
  return (
    <Section title="Graded twice in figures" note="the first grader beside the second">
      <Table<NamedAgreement>
        caption="Agreement by measure"
        rows={items}
        rowKey={({ standard, measure, versions }) => `${standard} ${measure} ${versions.join()}`}
        columns={[
          {
            head: 'Measure',
            facts: [fact('Measure', ({ name }) => name), fact('Standard', ({ standardName }) => standardName)],
            cell: (item) => (
              <>
                <b>{item.name}</b>{' '}
                {item.measure !== null && !oneStandard && <span className="muted">{item.standardName}</span>}
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
  )
}
