import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { SecondGrading } from '#contract/sheets/second-gradings.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { sheetQuery } from '../../../api/sheets/sheets.ts'
import { versionOf } from '../../../parts/sheets/measure-marks.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { capital, countedInWords } from '../../../words/format-number.ts'
import { type ComparedMeasure, compareSheets } from './compare-sheets.ts'

interface SideBySideProps {
  pair: SecondGrading
  title: string
  standards: readonly Standard[]
}

/** Both sheets of one attempt, measure by measure. */
export function SideBySide({ pair, title, standards }: SideBySideProps) {
  const first = useQuery(sheetQuery(pair.first.sheetId))
  const second = useQuery(sheetQuery(pair.second.sheetId))
  const standard = first.data && versionOf(standards, first.data)
  const rows = standard && second.data ? compareSheets(standard, first.data!, second.data) : []
  const differing = rows.filter(({ differs }) => differs).length
  return (
    <Section title={`${pair.candidate}: ${title}`} note="side by side">
      <Part query={second.data ? first : second}>
        <p>
          {capital(countedInWords(differing, 'measure'))} came out differently.{' '}
          <Link href={addressTo(paths.sheet, { id: pair.first.sheetId })}>The first sheet</Link>,{' '}
          <Link href={addressTo(paths.sheet, { id: pair.second.sheetId })}>the second</Link>.
        </p>
        <Table<ComparedMeasure>
          caption="Measures as two graders saw them"
          rows={rows}
          rowKey={({ code }) => code}
          columns={[
            { head: 'Measure', cell: ({ title: measure }) => measure },
            { head: pair.first.grader, cell: ({ first: words }) => words },
            { head: `${pair.second.grader} (second)`, cell: ({ second: words }) => words },
            { head: 'Together', bare: true, cell: ({ differs }) => (differs ? <b>differs</b> : 'same outcome') },
          ]}
        />
      </Part>
    </Section>
  )
}
