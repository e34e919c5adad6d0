import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { dayInZone } from '#calendar/day-in-zone.ts'
import { sessionQuery } from '../../api/accounts/session.ts'
import { sheetQuery } from '../../api/sheets/sheets.ts'
import { soldierQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { useMay } from '../../api/use-may.ts'
import { formatSheet, formatStanding } from '../../domain/sheets/format-sheet.ts'
import { familyName } from '../../domain/soldiers/format-person.ts'
import { timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { titleUnder } from '../../domain/standards/titles.ts'
import { Facts } from '../../parts/sheets/facts.tsx'
import { versionOf } from '../../parts/sheets/measure-marks.ts'
import { addressTo, paths } from '../../paths.ts'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatDay } from '../../words/format-day.ts'
import { today as todayIn } from '../../words/today.ts'
import { unitZone } from '../../words/unit-zone.ts'
import { Appeals } from './appeals.tsx'
import { History } from './history.tsx'
import { MarksPart } from './marks-part.tsx'
import { SetAside } from './set-aside.tsx'
import { ViolationsPart } from './violations-part.tsx'

/** One grade sheet as it stands now or in an earlier revision. */
export default function SheetPage({ id }: { id: string }) {
  const [filters] = useFilters(['revision'])
  const mayAmend = useMay('amend-sheets')
  const seesSoldiers = useMay('see-soldiers')
  const me = useQuery(sessionQuery).data?.soldierId
  const sheet = useQuery(sheetQuery(id))
  const standards = useQuery(standardsQuery).data
  const certifications = useQuery(certificationsQuery).data ?? []
  const units = useQuery(unitsQuery).data ?? []
  const newest = sheet.data?.revisions.at(-1)
  const revision = sheet.data?.revisions.find(({ number }) => String(number) === filters.revision) ?? newest
  const body = revision?.body
  // Only for the time zone of the candidate's unit; the page does not wait for it. Who only grades sees no page of a soldier.
  const candidate = useQuery(soldierQuery((seesSoldiers && body?.candidateId) || '')).data
  if (!sheet.data || !standards || !revision || !body) {
    return <Page title="Grade sheet" error={sheet.error} onRetry={sheet.refetch} />
  }

  const nameOf = (person: string) => familyName(sheet.data.people[person] ?? 'Somebody not visible to you')
  const timeZone = timeZoneOf(units, candidate?.unitId)
  const today = todayIn(timeZone)
  const standard = versionOf(standards, body)
  const older = revision !== newest
  const concerns = !!me && [body.candidateId, body.sponsorId].includes(me)
  const mayAppeal = concerns && Date.now() <= Date.parse(sheet.data.appealableUntil)
  const lastDay = formatDay(dayInZone(sheet.data.appealableUntil, timeZone ?? unitZone()), today)
  return (
    <Page
      title="Grade sheet"
      answer={<bdi>{formatSheet(nameOf(body.candidateId), sheet.data.day, revision.result, body.purpose, today)}</bdi>}
      why={formatStanding(sheet.data)}
      controls={
        <>
          <Link href={addressTo(paths.candidate, { id: body.candidateId })}>
            All attempts of {nameOf(body.candidateId)}
          </Link>
          <Link href={addressTo(paths.debrief, { id })}>Debrief to show or print</Link>
          {mayAmend && <Link href={addressTo(paths.enter, { amend: id })}>Amend what was entered wrong</Link>}
        </>
      }
    >
      {older && (
        <Notice>
          <p>
            This is revision {revision.number}; revision {newest?.number} is in force.{' '}
            <Link href={addressTo(paths.sheet, { id })}>Show the one in force</Link>
          </p>
        </Notice>
      )}
      {sheet.data.duplicateOf && <SetAside id={id} stands={sheet.data.duplicateOf} mayAmend={mayAmend} />}
      {sheet.data.violations.length > 0 && (
        <ViolationsPart sheet={sheet.data} titleOf={titleUnder(certifications, standards)} today={today} />
      )}
      <div className="columns">
        <MarksPart standard={standard} revision={revision} />
        <div>
          <Section title="Sheet">
            <Facts
              body={body}
              day={sheet.data.day}
              receivedAt={sheet.data.receivedAt}
              nameOf={nameOf}
              standardTitle={standard?.title ?? body.standard}
              timeZone={timeZone}
              today={today}
            />
          </Section>
          <Section title="Revisions and decisions">
            <History sheet={sheet.data} shown={revision.number} today={today} timeZone={timeZone} />
          </Section>
          {body.purpose === 'test' && (sheet.data.appeals.length > 0 || mayAppeal) && (
            <Section title="Appeals" note={mayAppeal ? `until ${lastDay}` : `possible until ${lastDay}`}>
              <Appeals sheet={sheet.data} mayAppeal={mayAppeal} today={today} />
            </Section>
          )}
        </div>
      </div>
      <p className="caution">A result is a training record, not a medical or disciplinary finding.</p>
    </Page>
  )
}
