import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { Requirements } from '#contract/readiness/requirements.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { requirementsQuery } from '../../api/soldiers/people.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { useMay } from '../../api/use-may.ts'
import { fullUnitName, unitsInOrder } from '../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle } from '../../domain/standards/titles.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { UnitField } from '../../parts/soldiers/unit-field.tsx'
import { CertificationField } from '../../parts/standards/certification-field.tsx'
import { addressTo, paths } from '../../paths.ts'
import { DateField } from '../../ui/date-field.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { counted, listed } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import { today as todayIn } from '../../words/today.ts'
import './people.css'

/** By unit and grade: who must hold which certification, and how many do. */
export default function RequirementsPage() {
  const [filters, setFilters] = useFilters(['on', 'unitId', 'certification'])
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const mayManage = useMay('manage-standards')
  const today = todayIn()
  const day = filters.on || today
  const query = useQuery(requirementsQuery({ asOf: filters.on || undefined, unitId: filters.unitId || undefined }))
  const certifications = certificationsOn(terms, day)
  const place = new Map(unitsInOrder(units).map(({ unit }, index) => [unit.id, index]))
  const rows = query.data
    ?.filter(({ certification }) => !filters.certification || certification === filters.certification)
    .sort((a, b) => (place.get(a.unitId) ?? 0) - (place.get(b.unitId) ?? 0) || a.grade.localeCompare(b.grade, 'en'))
  const sum = (field: 'required' | 'certified') => rows?.reduce((total, row) => total + row[field], 0) ?? 0
  return (
    <Page
      title="Who must hold what"
      answer={rows && `${ofAll(sum('certified'), sum('required'))} required certifications are held.`}
      why="Required are those whom the terms of the day name by grade and unit and whom the certification fits."
      error={rows ? null : query.error}
      onRetry={query.refetch}
      busy={query.isPlaceholderData}
      controls={
        <>
          <UnitField units={units} value={filters.unitId} onUnit={(unitId) => setFilters({ unitId })} />
          <CertificationField
            certifications={certifications}
            value={filters.certification}
            all="All"
            onCertification={(certification) => setFilters({ certification })}
          />
          <DateField label="As of" value={day} onDay={(one) => setFilters({ on: one === today ? '' : one })} />
        </>
      }
    >
      <Section
        title="By the terms"
        more={mayManage && <Link href={paths.standards}>Change terms under Standards</Link>}
      >
        <ul className="people-list">
          {certifications.map(({ code, title, arms, requiredOf }) => (
            <li key={code}>
              <b>{title}</b>
              <span>
                {requiredOf === null
                  ? 'of everybody whom it fits'
                  : listed([
                      ...(requiredOf.grades ? [`grades ${requiredOf.grades.join(', ')}`] : []),
                      ...(requiredOf.units ? [requiredOf.units.map((id) => fullUnitName(units, id)).join('; ')] : []),
                    ])}
                {arms.length > 0 && <span className="muted"> with {listed(arms, 'or')}</span>}
              </span>
            </li>
          ))}
        </ul>
      </Section>
      {rows && (
        <Section title="By unit and grade" note={counted(rows.length, 'line')}>
          {rows.length === 0 ? (
            <Empty>
              <p>Nobody here must hold a certification on this day, and nobody does.</p>
              <FilledBy steps={['certifications', 'roster']} />
            </Empty>
          ) : (
            <RequirementsTable rows={rows} units={units} terms={terms} />
          )}
        </Section>
      )}
    </Page>
  )
}

interface RequirementsTableProps {
  rows: Requirements['items']
  units: readonly Unit[]
  terms: readonly Certification[]
}

function RequirementsTable({ rows, units, terms }: RequirementsTableProps) {
  return (
    <Table
      caption="Required and held, by unit and grade"
      rows={rows}
      rowKey={({ unitId, grade, certification }) => `${unitId} ${grade} ${certification}`}
      columns={[
        { head: 'Unit', cell: ({ unitId }) => fullUnitName(units, unitId) },
        {
          head: 'Grade',
          bare: true,
          tight: true,
          cell: ({ unitId, grade }) => <Link href={addressTo(paths.people, { unitId, grade })}>{grade}</Link>,
        },
        {
          head: 'Certification',
          bare: true,
          cell: ({ certification }) => certificationTitle(terms, certification),
        },
        { head: 'People', numeric: true, cell: ({ people }) => people },
        { head: 'Must hold it', numeric: true, cell: ({ required }) => required },
        { head: 'Of these do', numeric: true, cell: ({ certified }) => certified },
        { head: 'Still to get it', numeric: true, cell: ({ required, certified }) => required - certified },
        { head: 'Others who do', numeric: true, cell: ({ others }) => others },
      ]}
    />
  )
}
