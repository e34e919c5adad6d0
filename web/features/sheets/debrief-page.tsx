import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { dayInZone } from '#calendar/day-in-zone.ts'
import { retestsQuery } from '../../api/readiness/retests.ts'
import { sheetQuery } from '../../api/sheets/sheets.ts'
import { soldierQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { useMay } from '../../api/use-may.ts'
import { formatDebrief, formatRetest } from '../../domain/sheets/format-debrief.ts'
import { formatSheet } from '../../domain/sheets/format-sheet.ts'
import { familyName } from '../../domain/soldiers/format-person.ts'
import { timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { Debrief } from '../../parts/sheets/debrief.tsx'
import { versionOf } from '../../parts/sheets/measure-marks.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Page } from '../../ui/page.tsx'
import { formatDayWithYear } from '../../words/format-day.ts'
import { today as todayIn } from '../../words/today.ts'
import { unitZone } from '../../words/unit-zone.ts'

/** One page for candidate and sponsor after a test, to show or print: what was GO, what not and why, and what now. */
export default function DebriefPage({ id }: { id: string }) {
  const sheet = useQuery(sheetQuery(id))
  const standards = useQuery(standardsQuery).data
  const units = useQuery(unitsQuery).data ?? []
  const candidateId = sheet.data?.candidateId ?? ''
  // For the zone of the candidate's unit; who only grades sees no page of a soldier.
  const seesSoldiers = useMay('see-soldiers')
  const candidate = useQuery(soldierQuery(seesSoldiers ? candidateId : '')).data
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
  return (
    <Page
      title={`Debrief of ${nameOf(data.candidateId)}`}
      answer={<bdi>{formatSheet(nameOf(data.candidateId), data.day, data.result, data.purpose, today)}</bdi>}
      why={formatDebrief(standard, data.result)}
      controls={
        <>
          <Button kind="main" onClick={() => window.print()}>
            Print
          </Button>
          <Link href={addressTo(paths.sheet, { id })}>The whole sheet</Link>
        </>
      }
    >
      <Debrief
        standard={standard}
        body={data}
        result={data.result}
        day={data.day}
        receivedAt={data.receivedAt}
        nameOf={nameOf}
        timeZone={timeZone}
        today={today}
        retest={formatRetest(data, open, today)}
        appeal={
          Date.now() <= Date.parse(data.appealableUntil)
            ? `until ${formatDayWithYear(dayInZone(data.appealableUntil, timeZone ?? unitZone()))}`
            : null
        }
      />
    </Page>
  )
}
