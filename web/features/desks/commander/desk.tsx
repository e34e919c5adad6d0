import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { ceremoniesQuery } from '../../../api/ceremonies/ceremonies.ts'
import { readinessTrendQuery } from '../../../api/readiness/readiness-trend.ts'
import { retestsQuery } from '../../../api/readiness/retests.ts'
import { forecastDatesQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { openAmendmentsQuery } from '../../../api/sheets/appeals.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { DueMarks } from '../../../charts/due-marks.tsx'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle } from '../../../domain/standards/titles.ts'
import { CeremonyList } from '../../../parts/ceremonies/ceremony-list.tsx'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { AheadLines } from '../../../parts/readiness/ahead-lines.tsx'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { counted } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { CourseOf } from './course-of.tsx'
import { formatAhead, formatBefore, formatReady } from './format-commander.ts'
import { LapsesPart } from './lapses-part.tsx'
import { MonthsTable } from './months-table.tsx'
import { toCourses } from './to-courses.ts'
import './commander.css'

const CEREMONIES_SHOWN = 6

/** The commander's desk: are we ready, are we getting better, will we be ready; each share leads to the names behind it. */
export default function CommanderDesk() {
  const [chosen, setChosen] = useFilters(['unitId', 'certification'])
  const filters = { unitId: chosen.unitId || undefined, certification: chosen.certification || undefined }
  const trend = useQuery(readinessTrendQuery(filters))
  const ceremonies = useQuery(ceremoniesQuery)
  const retests = useQuery(retestsQuery(chosen.unitId ? { unitId: chosen.unitId } : {}))
  const dates = useQuery(forecastDatesQuery(chosen.unitId || undefined))
  const amendments = useQuery(openAmendmentsQuery)
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const today = todayIn(timeZoneOf(units, chosen.unitId))
  const certifications = certificationsOn(terms, today)
  const titleOf = (code: string) => certificationTitle(certifications, code)
  const courses = trend.data && toCourses(trend.data.items)
  const coming = ceremonies.data?.filter(({ day }) => day >= today).slice(0, CEREMONIES_SHOWN)
  const backlog = retests.data?.filter(
    ({ certification }) => !filters.certification || certification === filters.certification,
  )
  return (
    <Page
      title="Desk"
      answer={courses && formatReady(courses)}
      why={courses && formatBefore(courses)}
      error={courses ? null : trend.error}
      onRetry={trend.refetch}
      busy={trend.isPlaceholderData}
      controls={
        <>
          <SelectField
            label="Unit"
            value={chosen.unitId}
            onChange={(event) => setChosen({ unitId: event.target.value })}
          >
            <option value="">Everything in scope</option>
            <UnitOptions units={units} />
          </SelectField>
          <SelectField
            label="Certification"
            value={chosen.certification}
            onChange={(event) => setChosen({ certification: event.target.value })}
          >
            <option value="">All</option>
            {certifications.map(({ code, title }) => (
              <option key={code} value={code}>
                {title}
              </option>
            ))}
          </SelectField>
        </>
      }
    >
      {amendments.data && amendments.data.length > 0 && (
        <p>
          <Link href={paths.contested}>
            {counted(amendments.data.length, 'amendment waits', 'amendments wait')} for a second person, you or the
            office.
          </Link>
        </p>
      )}
      <Section
        title="Certified of those required"
        note="at the end of each month, with the people of that day"
        more={<Link href={paths.suspensions}>Suspensions</Link>}
      >
        {courses?.length === 0 && (
          <Empty>
            Nobody here is required to hold a certification. Pick another unit.
            <FilledBy steps={['certifications', 'roster']} />
          </Empty>
        )}
        {courses && courses.length > 0 && (
          <>
            <div className="courses">
              {courses.map((course) => (
                <CourseOf
                  key={course.certification}
                  course={course}
                  title={titleOf(course.certification)}
                  units={units}
                  top={chosen.unitId}
                />
              ))}
            </div>
            <details className="courses-table">
              <summary>Month by month in figures</summary>
              <MonthsTable courses={courses} unitId={chosen.unitId} titleOf={titleOf} />
            </details>
          </>
        )}
      </Section>
      <Section
        title="Ready on the days ahead"
        note="given lapses, bookings and chances to pass"
        more={
          <Link href={addressTo(paths.ahead, { unitId: chosen.unitId, certification: chosen.certification })}>
            Another day
          </Link>
        }
      >
        <Part query={dates}>{dates.data && <AheadLines found={dates.data} today={today} titleOf={titleOf} />}</Part>
      </Section>
      <div className="columns halves">
        <Section title="Ceremonies ahead" note="posts filled and short">
          <Part query={ceremonies}>
            {coming && (
              <>
                <p className="part-answer">{formatAhead(coming)}</p>
                <CeremonyList ceremonies={coming} today={today} />
              </>
            )}
          </Part>
        </Section>
        <Section
          title="Retests open"
          note="by the week they are due"
          more={<Link href={addressTo(paths.retests, { unitId: chosen.unitId })}>All retests</Link>}
        >
          <Part query={retests}>
            {backlog && (
              <>
                <p className="part-answer">
                  {backlog.length === 0
                    ? 'No retest is open.'
                    : `${counted(backlog.length, 'retest')} open, ${backlog.filter(({ pastDue }) => pastDue).length} past due.`}
                </p>
                {backlog.length > 0 && <DueMarks due={backlog.map(({ due }) => due)} today={today} />}
              </>
            )}
          </Part>
        </Section>
      </div>
      <LapsesPart filters={filters} units={units} today={today} titleOf={titleOf} />
    </Page>
  )
}
