import { useQuery } from '@tanstack/react-query'
import { addDays } from '#calendar/plain-date.ts'
import type { PastReadiness, ReadinessForecast } from '#contract/readiness-forecast/readiness-forecast.ts'
import { sessionQuery } from '../../../api/accounts/session.ts'
import { pastReadinessQuery, readinessForecastQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import {
  formatAhead,
  formatAssumed,
  formatGround,
  formatInTen,
  formatPast,
} from '../../../domain/readiness/format-ahead.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle, standardTitle } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { CertificationField } from '../../../parts/standards/certification-field.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { formatDay } from '../../../words/format-day.ts'
import { figure } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { WhatIfPart } from './what-if-part.tsx'

const USUAL_DAYS_ON = 30
/** So many numbers beyond the interval are shown, below and above. */
const BEYOND = 3

const NoCertification = () => (
  <Page title="Ready on a day" answer="There is no certification yet to be ready in.">
    <Empty>
      <p>Once there is one, this page says how many will hold it on a day to come.</p>
      <FilledBy steps={['standards', 'certifications']} />
    </Empty>
  </Page>
)

/** Will we be ready on that day: one certification, unit and date; what it rests on, and what such forecasts were worth. */
export default function AheadPage() {
  const [filters, setFilters] = useFilters(['unitId', 'certification', 'on'])
  const session = useQuery(sessionQuery).data
  const units = useQuery(unitsQuery).data ?? []
  const known = useQuery(certificationsQuery).data
  const terms = known ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const unitId = filters.unitId || session?.unitId || undefined
  const today = todayIn(timeZoneOf(units, unitId))
  const certifications = certificationsOn(terms, today)
  const certification = filters.certification || (certifications[0]?.code ?? '')
  const on = filters.on || addDays(today, USUAL_DAYS_ON)
  const query = useQuery(readinessForecastQuery({ unitId, certification, on }))
  const past = useQuery(pastReadinessQuery({ unitId, certification }))
  const found = query.data
  const title = certificationTitle(certifications, certification)
  if (known && certification === '') return <NoCertification />
  return (
    <Page
      title="Ready on a day"
      answer={
        found &&
        (found.required === 0 ? 'Nobody here is required to hold it that day.' : formatAhead(found, title, today))
      }
      why={found && found.required > 0 ? formatGround(found) : undefined}
      error={found ? null : query.error}
      onRetry={() => query.refetch()}
      busy={query.isPlaceholderData}
      controls={
        <>
          <SelectField
            label="Unit"
            value={filters.unitId || (session?.unitId ?? '')}
            onChange={(event) => setFilters({ unitId: event.target.value })}
          >
            {!session?.unitId && <option value="">Everything in scope</option>}
            <UnitOptions units={units} />
          </SelectField>
          <CertificationField
            certifications={certifications}
            value={certification}
            onCertification={(certification) => setFilters({ certification })}
          />
          <DateField label="On" value={on} onDay={(day) => setFilters({ on: day })} />
        </>
      }
    >
      {found && found.required > 0 && <Chances found={found} />}
      {found && found.required > 0 && (
        <WhatIfPart
          unitId={unitId}
          certification={certification}
          on={on}
          today={today}
          need={found.need}
          standards={certifications.find(({ code }) => code === certification)?.standards ?? []}
          standardTitle={(code) => standardTitle(standards, code)}
        />
      )}
      <Section title="What such forecasts were worth" note="made at the end of each month for thirty days on">
        <Part query={past}>{past.data && <Past past={past.data} today={today} />}</Part>
      </Section>
    </Page>
  )
}

function Chances({ found }: { found: ReadinessForecast }) {
  const { low, high, need } = found
  const rows = found.atLeast.filter(({ n }) => (n >= low - BEYOND && n <= high + BEYOND) || n === need?.posts)
  return (
    <Section title="At least this many" note="the chance of each">
      <Table<(typeof rows)[number]>
        caption="Chance of at least this many certified"
        rows={rows}
        rowKey={({ n }) => String(n)}
        columns={[
          { head: 'Certified', tight: true, cell: ({ n }) => <b>{`${figure(n)} or more`}</b> },
          { head: 'Chance', bare: true, cell: ({ chance }) => formatInTen(chance) },
          {
            head: 'Enough for',
            bare: true,
            cell: ({ n }) => (n === need?.posts ? need.ceremonies.map(({ title }) => title).join(', ') : null),
          },
        ]}
      />
      <p className="rests-on">{formatAssumed(found)}</p>
    </Section>
  )
}

type Month = PastReadiness['items'][number]

function Past({ past, today }: { past: PastReadiness; today: string }) {
  if (past.items.length === 0)
    return (
      <Empty>
        {formatPast(past)}
        <FilledBy steps={['certifications', 'roster']} />
      </Empty>
    )
  return (
    <>
      <p className="part-answer">{formatPast(past)}</p>
      <Table<Month>
        caption="Forecasts of past month-ends and what came"
        rows={past.items.toReversed()}
        rowKey={({ asOf }) => asOf}
        columns={[
          { head: 'For', tight: true, cell: ({ on }) => <b>{formatDay(on, today)}</b> },
          { head: 'Made on', bare: true, cell: ({ asOf }) => formatDay(asOf, today) },
          { head: 'Required', numeric: true, cell: ({ required }) => figure(required) },
          { head: 'Expected', numeric: true, cell: ({ expected }) => figure(Math.round(expected)) },
          { head: 'Interval', bare: true, cell: ({ low, high }) => `${figure(low)} to ${figure(high)}` },
          { head: 'Came', numeric: true, cell: ({ came }) => figure(came) },
          {
            head: 'Held',
            bare: true,
            cell: ({ held, came, high }) => (held ? 'held' : came > high ? 'more came' : 'fewer came'),
          },
        ]}
      />
      <p className="rests-on">
        Each from the record as it stood then; the tests that were then taken or missed stand for what was booked.
        People are those of the day itself.
      </p>
    </>
  )
}
