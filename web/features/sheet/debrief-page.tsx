import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { dayInZone } from '#calendar/day-in-zone.ts'
import { retestsQuery } from '../../api/retests.ts'
import { sheetQuery } from '../../api/sheets.ts'
import { soldierQuery } from '../../api/soldiers.ts'
import { standardsQuery } from '../../api/standards.ts'
import { unitsQuery } from '../../api/units.ts'
import { versionOf } from '../../model/measure-marks.ts'
import { familyName } from '../../model/say-person.ts'
import { timeZoneOf } from '../../model/unit-tree.ts'
import { Button } from '../../ui/button.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { sayDayWithYear } from '../../words/say-day.ts'
import { deviceZone, today as todayIn } from '../../words/today.ts'
import { Facts } from './facts.tsx'
import { MeasureList } from './measure-list.tsx'
import { sayDebrief, sayDrill, sayRetest } from './say-debrief.ts'
import { saySheet } from './say-sheet.ts'
import './debrief.css'

/** One page for candidate and sponsor after a test, to show or print: what was GO, what not and why, and what now. */
export default function DebriefPage({ id }: { id: string }) {
  const sheet = useQuery(sheetQuery(id))
  const standards = useQuery(standardsQuery).data
  const units = useQuery(unitsQuery).data ?? []
  const candidateId = sheet.data?.candidateId ?? ''
  const candidate = useQuery(soldierQuery(candidateId)).data
  const retests = useQuery({
    ...retestsQuery({ soldierId: candidateId, asOf: sheet.data?.day }),
    enabled: candidateId !== '',
  }).data
  const standard = sheet.data && standards && versionOf(standards, sheet.data)
  if (!sheet.data || !standard) return <Page title="Debrief" error={sheet.error} onRetry={sheet.refetch} />

  const { data } = sheet
  const timeZone = timeZoneOf(units, candidate?.unitId)
  const today = todayIn(timeZone)
  const nameOf = (person: string) => familyName(data.people[person] ?? 'Somebody not visible to you')
  const open = retests?.filter(({ standard: code, on }) => code === data.standard && on === data.day) ?? []
  const isTest = data.purpose === 'test'
  return (
    <Page
      title={`Debrief of ${nameOf(data.candidateId)}`}
      answer={<bdi>{saySheet(nameOf(data.candidateId), data.day, data.result, data.purpose, today)}</bdi>}
      why={sayDebrief(standard, data.result)}
      controls={
        <>
          <Button kind="main" onClick={() => window.print()}>
            Print
          </Button>
          <Link href={`/sheets/${id}`}>The whole sheet</Link>
        </>
      }
    >
      <div className="columns debrief">
        <Section title="Measures" note={`GO with ${standard.rule.needed} of ${standard.rule.trials} correct`}>
          {data.result.ending === 'recorded' ? (
            <p>The paper record held the outcome and no marks.</p>
          ) : (
            <MeasureList standard={standard} body={data} result={data.result} />
          )}
        </Section>
        <div>
          <Section title="Drill first">
            <ul className="plain-list">
              {sayDrill(standard, data, data.result).map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </Section>
          {isTest && (
            <Section title="Retest">
              <ul className="plain-list">
                {sayRetest(data, open, today).map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </Section>
          )}
          {isTest && (
            <Section title="If you do not agree">
              <p>
                Candidate and sponsor can appeal until{' '}
                {sayDayWithYear(dayInZone(data.appealableUntil, timeZone ?? deviceZone()))}: open this sheet in
                Reviewstand, say what was not right, and the training office decides. Or speak to the office.
              </p>
            </Section>
          )}
          <Section title="Sheet">
            <Facts
              body={data}
              day={data.day}
              receivedAt={data.receivedAt}
              nameOf={nameOf}
              standardTitle={standard.title}
              timeZone={timeZone}
              today={today}
            />
          </Section>
        </div>
      </div>
      <p className="caution">
        A result is a training record, not a medical or disciplinary finding. Unit procedure comes before this page.
      </p>
    </Page>
  )
}
