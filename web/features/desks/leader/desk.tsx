import { usePrefetchInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { useForecasts } from '../../../api/ability/use-forecasts.ts'
import { sessionQuery } from '../../../api/accounts/session.ts'
import { outlooksQuery } from '../../../api/ceremonies/ceremonies.ts'
import { forecastDatesQuery } from '../../../api/readiness-forecast/readiness-forecast.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { formatTimes } from '../../../domain/ceremonies/format-ceremony.ts'
import { testsOnTheWay } from '../../../domain/ceremonies/outlook-groups.ts'
import { fullUnitName, timeZoneOf } from '../../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle, standardTitle } from '../../../domain/standards/titles.ts'
import { AheadLines } from '../../../parts/readiness/ahead-lines.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { AskedOfUs } from './asked-of-us.tsx'
import { formatDesk, formatOwn } from './format-desk.ts'
import { NotStanding, notStandingQuery } from './not-standing.tsx'
import './desk.css'
import { CeremonyLinks, CeremonyPart, LaterCeremonies } from './ceremony-part.tsx'

const CEREMONIES_SHOWN = 5

/** The platoon leader's question: which posts of the next ceremonies can I not fill, and who of mine could? */
export default function LeaderDesk() {
  const unitId = useQuery(sessionQuery).data?.unitId ?? undefined
  // Asked at once, shown below the ceremonies when those are there.
  usePrefetchInfiniteQuery(notStandingQuery(unitId))
  const outlooks = useQuery(outlooksQuery({}, CEREMONIES_SHOWN))
  const dates = useQuery(forecastDatesQuery(undefined))
  const units = useQuery(unitsQuery).data ?? []
  const terms = useQuery(certificationsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const { data } = outlooks
  const forecastOf = useForecasts(testsOnTheWay(data?.items.flatMap(({ people }) => people) ?? []))
  const zone = timeZoneOf(units)
  const today = todayIn(zone)
  const certifications = certificationsOn(terms, today)
  const words = {
    forecastOf,
    today,
    zone,
    certificationTitle: (code: string) => certificationTitle(certifications, code),
    standardTitle: (code: string) => standardTitle(standards, code),
  }
  const [first, ...later] = data?.items ?? []
  const unit = unitId ? fullUnitName(units, unitId) : 'everyone in your scope'
  return (
    <Page
      title="Desk"
      answer={data && formatDesk(data.items, today)}
      why={data && formatOwn(data.items, unit)}
      error={data ? null : outlooks.error}
      onRetry={() => outlooks.refetch()}
    >
      {data?.items.length === 0 && (
        <Empty>
          <p>
            No ceremony is planned that calls on your people. <Link href={paths.newCeremony}>Plan one</Link>, or look{' '}
            <Link href={paths.stand}>who can stand</Link> on any day.
          </p>
        </Empty>
      )}
      <AskedOfUs {...words} />
      {first && (
        <Section
          title={first.ceremony.title}
          note={formatTimes(first.ceremony, today, zone)}
          more={<CeremonyLinks ceremony={first.ceremony} />}
        >
          <CeremonyPart key={first.ceremony.id} item={first} unit={unit} open {...words} />
        </Section>
      )}
      {later.length > 0 && <LaterCeremonies later={later} unit={unit} words={words} />}
      {data && data.items.length > 0 && (
        <p className="desk-more">
          <Link href={paths.ceremonies}>All ceremonies</Link> · <Link href={paths.newCeremony}>Plan a ceremony</Link> ·{' '}
          <Link href={addressTo(paths.stand, { unitId })}>Who can stand on another day</Link>
        </p>
      )}
      {dates.data && dates.data.items.length > 0 && (
        <Section
          title="Ready on the days ahead"
          note="of your people, given lapses, bookings and chances to pass"
          more={<Link href={addressTo(paths.ahead, { unitId })}>Another day</Link>}
        >
          <AheadLines found={dates.data} today={today} titleOf={words.certificationTitle} />
        </Section>
      )}
      {data && (
        <NotStanding
          unitId={unitId}
          units={units}
          certifications={certifications}
          standardTitle={words.standardTitle}
          today={today}
        />
      )}
    </Page>
  )
}
