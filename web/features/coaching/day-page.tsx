import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { sessionQuery } from '../../api/accounts/session.ts'
import { candidateCoachingQuery } from '../../api/coaching/coaching.ts'
import { soldierQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { formatWhen } from '../../domain/coaching/format-ahead.ts'
import { shortName } from '../../domain/soldiers/format-person.ts'
import { timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { versionsOf } from '../../domain/standards/titles.ts'
import { WarningList } from '../../parts/coaching/warning-list.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'
import { today as todayIn } from '../../words/today.ts'
import { whatToBring } from './what-to-bring.ts'
import './day-page.css'

/** What to bring on the day of a test, on one page to print: from the conditions of the standard and the booking. */
export default function DayPage({ id }: { id: string }) {
  const [{ standard: asked }] = useFilters(['standard'])
  const soldier = useQuery(soldierQuery(id))
  const coaching = useQuery(candidateCoachingQuery(id, ''))
  const standards = useQuery(standardsQuery)
  const units = useQuery(unitsQuery).data ?? []
  const readerId = useQuery(sessionQuery).data?.soldierId ?? null
  const error = soldier.error ?? coaching.error ?? standards.error
  if (!soldier.data || !coaching.data || !standards.data) {
    return <Page title="On the day" error={error} onRetry={() => location.reload()} />
  }
  const timeZone = timeZoneOf(units, soldier.data.unitId)
  const today = todayIn(timeZone)
  const code = asked || coaching.data.drill?.standard || ''
  const ahead = coaching.data.ahead.find(({ standard }) => standard === code)
  const day = ahead?.booking?.on ?? today
  const versions = versionsOf(standards.data, code).filter(({ publishedAt }) => publishedAt !== null)
  const version = versions.find(({ effectiveFrom }) => effectiveFrom <= day) ?? versions[0]
  const titleOf = (one: string) => versionsOf(standards.data, one)[0]?.title ?? one
  const name = shortName(soldier.data)
  if (!version) {
    return (
      <Page title="On the day" answer="No test is ahead." why="Once one is booked, this page says what to bring." />
    )
  }
  const { booking } = ahead ?? {}
  const answer = booking
    ? `${name}: ${version.title}, ${formatDayInFull(booking.on, today)}${booking.startsAt ? ` at ${formatTime(booking.startsAt, timeZone)}` : ''}${booking.place ? `, ${booking.place}` : ''}.`
    : `${name}: ${version.title}, no day booked yet.`
  const about = coaching.data.warnings.filter(({ standard }) => standard === code)
  return (
    <Page
      title="On the day"
      answer={<bdi>{answer}</bdi>}
      why={
        booking?.graderName
          ? `Grader: ${booking.graderName}.`
          : ahead && !booking
            ? `Now: ${formatWhen(ahead, timeZone, today)}.`
            : undefined
      }
      controls={
        <>
          <Button kind="main" onClick={() => window.print()}>
            Print
          </Button>
          <Link href={addressTo(paths.candidate, { id, standard: code })}>The whole record</Link>
        </>
      }
    >
      {about.length > 0 && (
        <Section title="See to it before">
          <WarningList warnings={about} titleOf={titleOf} readerId={readerId} today={today} />
        </Section>
      )}
      <Section title="Bring">
        <ul className="day-list">
          {whatToBring(soldier.data, version, day).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </Section>
      {version.conditions.length > 0 && (
        <Section title="Conditions of the test" note={`${version.title}, version ${version.version}`}>
          <ul className="day-list">
            {version.conditions.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </Section>
      )}
      <p className="caution">{version.cautions.join(' ')}</p>
    </Page>
  )
}
