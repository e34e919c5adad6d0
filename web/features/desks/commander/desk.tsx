import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { ceremoniesQuery } from '../../../api/ceremonies/ceremonies.ts'
import { readinessTrendQuery } from '../../../api/readiness/readiness-trend.ts'
import { forecastDatesQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle } from '../../../domain/standards/titles.ts'
import { CeremonyList } from '../../../parts/ceremonies/ceremony-list.tsx'
import { AheadLines } from '../../../parts/readiness/ahead-lines.tsx'
import { UnitOptions } from '../../../parts/soldiers/unit-options.tsx'
import { CertificationField } from '../../../parts/standards/certification-field.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { SelectField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { today as todayIn } from '../../../words/today.ts'
import { formatAhead, formatBefore, formatReady } from './format-commander.ts'
import { LapsesPart } from './lapses-part.tsx'
import { toCourses } from './to-courses.ts'
import './commander.css'
import { CoursesPart } from './courses-part.tsx'
import { RetestsPart } from './retests-part.tsx'
import { WaitingLines } from './waiting-lines.tsx'

const CEREMONIES_SHOWN = 6

/** The commander's desk: are we ready, are we getting better, will we be ready; each share leads to the names behind it. */
export default function CommanderDesk() {
  const [chosen, setChosen] = useFilters(['unitId', 'certification'])
  const filters = { unitId: chosen.unitId || undefined, certification: chosen.certification || undefined }
  const trend = useQuery(readinessTrendQuery(filters))
  const ceremonies = useQuery(ceremoniesQuery)
  const dates = useQuery(forecastDatesQuery(chosen.unitId || undefined))
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const today = todayIn(timeZoneOf(units, chosen.unitId))
  const certifications = certificationsOn(terms, today)
  const titleOf = (code: string) => certificationTitle(certifications, code)
  const courses = trend.data && toCourses(trend.data.items)
  const coming = ceremonies.data?.filter(({ day }) => day >= today).slice(0, CEREMONIES_SHOWN)
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
          <CertificationField
            certifications={certifications}
            value={chosen.certification}
            all="All"
            onCertification={(certification) => setChosen({ certification })}
          />
        </>
      }
    >
      <WaitingLines />
      <CoursesPart courses={courses} units={units} unitId={chosen.unitId} titleOf={titleOf} />
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
        <RetestsPart filters={filters} today={today} />
      </div>
      <LapsesPart filters={filters} units={units} today={today} titleOf={titleOf} />
    </Page>
  )
}
