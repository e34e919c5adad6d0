import { useQuery } from '@tanstack/react-query'
import { lazy, Suspense, useState } from 'react'
import type { Retest } from '#contract/standards/certifications.ts'
import type { Booking } from '#contract/test-days/test-days.ts'
import { useForecasts } from '../../../api/ability/use-forecasts.ts'
import { retestsQuery } from '../../../api/readiness/retests.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { bookingsQuery } from '../../../api/test-days/bookings.ts'
import { testDaysQuery } from '../../../api/test-days/test-days.ts'
import { useMay } from '../../../api/use-may.ts'
import { DueMarks } from '../../../charts/due-marks.tsx'
import { fullUnitName, timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, standardTitle } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { DateField } from '../../../ui/date-field.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { counted } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { BulkBooking } from './bulk-booking.tsx'
import { ChooseAll } from './choose-all.tsx'
import { DueDialog } from './due-dialog.tsx'
import { keyOf, RETEST_STATES, retestsInState } from './filter-retests.ts'
import { formatBacklog, formatWhatIsReady, tallyRetests } from './format-retests.ts'
import { KeptPart } from './kept-part.tsx'
import { PlanLine } from './plan-line.tsx'
import { RetestTable } from './retest-table.tsx'

const isAhead = ({ state }: Booking): boolean => state === 'booked' || state === 'checked in'

const BacklogPart = lazy(() => import('./backlog-part.tsx'))

/** The backlog of retests: who, what, from when, by when; the office books from it. */
export default function RetestsPage() {
  const [filters, setFilters] = useFilters(['asOf', 'unitId', 'certification', 'state', 'booking', 'view', 'book'])
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const today = todayIn(timeZoneOf(units, filters.unitId))
  const asOf = filters.asOf || today
  const certifications = certificationsOn(useQuery(certificationsQuery).data ?? [], today)
  const retests = useQuery(retestsQuery({ asOf: filters.asOf || undefined, unitId: filters.unitId || undefined }))
  const mayBook = useMay('plan-test-days') && asOf === today
  const planned = filters.unitId || units.find(({ parentId }) => parentId === null)?.id
  const days = useQuery({ ...testDaysQuery({ from: today }), enabled: mayBook })
  const bookable =
    days.data
      ?.filter(({ id, calledOff, freeSlots }) => id === filters.book || (!calledOff && freeSlots > 0))
      .toReversed() ?? []
  const bookings = useQuery({ ...bookingsQuery({ from: today }), enabled: asOf === today })
  const bookedOn = (one: Retest) =>
    bookings.data?.find((each) => isAhead(each) && each.candidateId === one.soldierId && each.standard === one.standard)
  const [chosen, setChosen] = useState<readonly string[]>([])
  const [moving, setMoving] = useState<Retest | null>(null)
  const choose = (key: string, on: boolean) => setChosen(on ? [...chosen, key] : chosen.filter((one) => one !== key))
  const all = retests.data?.filter(
    ({ certification }) => !filters.certification || certification === filters.certification,
  )
  const list =
    all &&
    (filters.booking === '' || bookings.data) &&
    retestsInState(all, filters.state, asOf)
      .filter((one) => filters.booking === '' || (bookedOn(one) !== undefined) === (filters.booking === 'booked'))
      .sort((a, b) => a.due.localeCompare(b.due) || a.name.localeCompare(b.name))
  const tally = all && tallyRetests(all, asOf)
  const forecastOf = useForecasts(list ?? [], { asOf: filters.asOf || undefined })

  return (
    <Page
      title="Retests"
      answer={tally && formatBacklog(tally, filters.unitId ? fullUnitName(units, filters.unitId) : '')}
      why={tally && all && formatWhatIsReady(tally, all, asOf)}
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
          <SelectField
            label="Certification"
            value={filters.certification}
            onChange={(event) => setFilters({ certification: event.target.value })}
          >
            <option value="">All</option>
            {certifications.map(({ code, title }) => (
              <option key={code} value={code}>
                {title}
              </option>
            ))}
          </SelectField>
          <SelectField
            label="State"
            value={filters.state}
            onChange={(event) => setFilters({ state: event.target.value })}
          >
            <option value="">All open</option>
            {Object.entries(RETEST_STATES).map(([state, text]) => (
              <option key={state} value={state}>
                {text}
              </option>
            ))}
          </SelectField>
          {asOf === today && (
            <SelectField
              label="Booking"
              value={filters.booking}
              onChange={(event) => setFilters({ booking: event.target.value })}
            >
              <option value="">Booked or not</option>
              <option value="none">Not booked</option>
              <option value="booked">Booked</option>
            </SelectField>
          )}
          <SelectField label="Show" value={filters.view} onChange={(event) => setFilters({ view: event.target.value })}>
            <option value="">Open retests</option>
            <option value="kept">GOs that stop counting soon</option>
          </SelectField>
          <DateField label="As of" value={asOf} onDay={(day) => setFilters({ asOf: day === today ? '' : day })} />
        </>
      }
    >
      {filters.view === 'kept' && (
        <Section title="GOs that stop counting soon" note="within thirty days">
          <KeptPart
            asOf={asOf}
            unitId={filters.unitId}
            units={units}
            standards={standards}
            certifications={certifications}
          />
        </Section>
      )}
      {mayBook && planned && filters.view === '' && (
        <PlanLine unitId={planned} today={today} title={(code) => standardTitle(standards, code)} />
      )}
      {mayBook && list && (chosen.length > 0 || filters.book) && (
        <BulkBooking
          chosen={list.filter((one) => chosen.includes(keyOf(one)))}
          days={bookable}
          standards={standards}
          testDayId={filters.book}
          onTestDay={(book) => setFilters({ book })}
          onBooked={() => setChosen([])}
          zone={timeZoneOf(units, filters.unitId)}
          today={today}
        />
      )}
      {moving && <DueDialog retest={moving} today={today} onClose={() => setMoving(null)} />}
      {filters.view === '' && list && (
        <div className="columns halves">
          <Section title="Due" note="a diamond each, over the week it is due in; solid is past due">
            {list.length === 0 && <p className="muted">Nothing is due.</p>}
            {list.length > 0 && <DueMarks due={list.map(({ due }) => due)} today={asOf} />}
          </Section>
          <Section title="Backlog over 18 months" note="open at the end of each month, and now">
            <Suspense fallback={<div className="part" aria-busy="true" />}>
              <BacklogPart asOf={asOf} unitId={filters.unitId} today={today} />
            </Suspense>
          </Section>
        </div>
      )}
      {filters.view === '' && list && list.length > 0 && (
        <Section title="Open retests" note={`${counted(list.length, 'retest')}, in order of due day`}>
          {mayBook && <ChooseAll rows={list} chosen={chosen} onChosen={setChosen} />}
          <RetestTable
            rows={list}
            asOf={asOf}
            units={units}
            standards={standards}
            certifications={certifications}
            canBook={mayBook}
            chosen={chosen}
            onChoose={choose}
            onMove={setMoving}
            bookedOn={bookedOn}
            forecastOf={forecastOf}
          />
        </Section>
      )}
      {filters.view === '' && list?.length === 0 && (
        <Section title="Open retests">
          <Empty>
            <p>
              {all?.length === 0
                ? 'Nobody here has to retest on that day.'
                : 'No open retest matches. Show all open ones.'}
            </p>
            <FilledBy steps={['test-days']} />
          </Empty>
        </Section>
      )}
    </Page>
  )
}
