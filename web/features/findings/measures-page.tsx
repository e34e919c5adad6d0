import { useQuery } from '@tanstack/react-query'
import { measureFindingsQuery } from '../../api/findings/findings.ts'
import { failingOrder } from '../../domain/findings/failing-order.ts'
import { faultTitle } from '../../domain/standards/titles.ts'
import { paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { counted } from '../../words/format-number.ts'
import { FailingPicture } from './failing-picture.tsx'
import { type FailingRow, majorRows, minorRows } from './failing-rows.ts'
import { FailingTable } from './failing-table.tsx'
import { FindingPage } from './finding-page.tsx'
import { formatDifferences } from './format-failing.ts'
import { formatFailing, formatFailingWhy } from './format-findings.ts'
import { NoneFound } from './none-found.tsx'
import { RestsOn } from './rests-on.tsx'
import { useFinding } from './use-finding.ts'

/** The measures that fail most, how sure that is, and the faults behind them. */
export default function MeasuresPage() {
  const finding = useFinding()
  const { standards, titleOf, standardOf, unitName } = finding
  const query = useQuery(measureFindingsQuery(finding.filters))
  const data = query.data
  const minors = data && failingOrder(minorRows(data))
  const majors = data ? failingOrder(majorRows(data)) : []
  const oneStandard = new Set(minors?.map(({ standard }) => standard)).size <= 1
  const faultOf = ({ standard, measure }: Pick<FailingRow, 'standard' | 'measure'>, code: string) =>
    faultTitle(standards, standard, measure, code)
  const plainOrFull = (rows: readonly FailingRow[], row: FailingRow) =>
    rows.some((other) => other.standard !== row.standard && titleOf(other) === titleOf(row))
      ? `${titleOf(row)}, ${standardOf(row)}`
      : titleOf(row)
  const parts = {
    nameOf: titleOf,
    standardOf: (row: FailingRow) => (oneStandard ? '' : standardOf(row)),
    faultOf,
  }

  return (
    <FindingPage
      here={paths.measures}
      title="Failing measures"
      finding={finding}
      query={query}
      answer={minors && formatFailing(minors, (row) => titleOf(row))}
      why={minors && formatFailingWhy(minors, { fault: faultOf })}
    >
      {data && minors && minors.length > 0 && (
        <>
          <FailingPicture
            rows={minors}
            nameOf={(row) => plainOrFull(minors, row)}
            title="Minor measures"
            note="the one that fails most first"
            file="failing-measures"
            more={formatDifferences(minors, unitName)}
          />
          <Section title="Minor measures in figures" note={counted(minors.length, 'measure')}>
            <FailingTable caption="Minor measures, the one that fails most first" rows={minors} {...parts} />
          </Section>
        </>
      )}
      {majors.length > 0 && (
        <>
          <FailingPicture
            rows={majors}
            nameOf={(row) => plainOrFull(majors, row)}
            title="Major measures"
            note="one NO-GO ends the test"
            file="failing-majors"
          />
          <Section title="Major measures in figures" note={counted(majors.length, 'measure')}>
            <FailingTable caption="Major measures, the one that fails most first" rows={majors} {...parts} />
          </Section>
        </>
      )}
      {minors?.length === 0 && <NoneFound title="Minor measures">No counted test lies within these filters.</NoneFound>}
      {data && <RestsOn basis={data.basis} />}
    </FindingPage>
  )
}
