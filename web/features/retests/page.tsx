import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { Retest } from '#contract/certifications.ts'
import { certificationsQuery } from '../../api/certifications.ts'
import { retestsQuery } from '../../api/retests.ts'
import { standardsQuery } from '../../api/standards.ts'
import { unitsQuery } from '../../api/units.ts'
import { DueMarks } from '../../charts/due-marks.tsx'
import { certificationsOn, certificationTitle, standardTitle } from '../../model/titles.ts'
import { UnitOptions } from '../../model/unit-options.tsx'
import { fullUnitName, timeZoneOf } from '../../model/unit-tree.ts'
import { DateField } from '../../ui/date-field.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { sayDay } from '../../words/say-day.ts'
import { counted } from '../../words/say-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { sayRetestState } from './say-retest-state.ts'
import { sayBacklog, sayWhatIsReady, tallyRetests } from './say-retests.ts'

/** The backlog of retests: who, what, from when, by when. */
export default function RetestsPage() {
  const [filters, setFilters] = useFilters(['asOf', 'unitId'])
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const today = todayIn(timeZoneOf(units, filters.unitId))
  const certifications = certificationsOn(useQuery(certificationsQuery).data ?? [], today)
  const retests = useQuery(retestsQuery({ asOf: filters.asOf || undefined, unitId: filters.unitId || undefined }))
  const asOf = filters.asOf || today
  const list =
    retests.data && [...retests.data].sort((a, b) => a.due.localeCompare(b.due) || a.name.localeCompare(b.name))
  const tally = list && tallyRetests(list, asOf)
  const manyCertifications = new Set(list?.map(({ certification }) => certification)).size > 1

  return (
    <Page
      title="Retests"
      answer={tally && sayBacklog(tally, filters.unitId ? fullUnitName(units, filters.unitId) : '')}
      why={tally && sayWhatIsReady(tally, list, asOf)}
      error={list ? null : retests.error}
      onRetry={retests.refetch}
      busy={retests.isPlaceholderData}
      controls={
        <>
          <SelectField
            label="Unit"
            value={filters.unitId}
            onChange={(event) => setFilters({ unitId: event.target.value })}
          >
            <option value="">All units</option>
            <UnitOptions units={units} />
          </SelectField>
          <DateField label="As of" value={asOf} onDay={(day) => setFilters({ asOf: day === today ? '' : day })} />
        </>
      }
    >
      {list && list.length > 0 && (
        <>
          <Section title="Due" note="a diamond each, over the week it is due in; solid is past due">
            <DueMarks due={list.map(({ due }) => due)} today={asOf} />
          </Section>
          <Section title="Open retests" note={`${counted(list.length, 'retest')}, the first due first`}>
            <Table<Retest>
              caption="Open retests"
              rows={list}
              rowKey={({ soldierId, certification, standard }) => `${soldierId} ${certification} ${standard}`}
              columns={[
                {
                  head: 'Soldier',
                  tight: 'wide',
                  cell: (retest) => (
                    <>
                      <Link href={`/candidates/${retest.soldierId}?standard=${retest.standard}`}>
                        <b>
                          <bdi>
                            {retest.grade} {retest.name}
                          </bdi>
                        </b>
                      </Link>{' '}
                      <span className="muted">{retest.rosterNumber}</span>
                    </>
                  ),
                },
                { head: 'Unit', bare: true, tight: 'wide', cell: ({ unitId }) => fullUnitName(units, unitId) },
                {
                  head: 'Standard',
                  bare: true,
                  cell: ({ standard, certification }) => (
                    <>
                      {standardTitle(standards, standard)}
                      {manyCertifications && (
                        <span className="muted"> {certificationTitle(certifications, certification)}</span>
                      )}
                    </>
                  ),
                },
                { head: 'Attempt', numeric: true, cell: ({ attempt }) => attempt },
                { head: 'NO-GO on', tight: true, cell: ({ on }) => sayDay(on, asOf) },
                { head: 'Earliest', tight: true, cell: ({ earliest }) => sayDay(earliest, asOf) },
                { head: 'Due', tight: true, cell: ({ due }) => sayDay(due, asOf) },
                { head: 'State', bare: true, cell: (retest) => <b>{sayRetestState(retest, asOf)}</b> },
              ]}
            />
          </Section>
        </>
      )}
      {list?.length === 0 && (
        <Section title="Open retests">
          <Empty>
            <p>Nobody here has to retest on that day.</p>
          </Empty>
        </Section>
      )}
    </Page>
  )
}
