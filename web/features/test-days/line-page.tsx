import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { LineBooking, TestDayLine } from '#contract/test-days/running-tests.ts'
import type { TestDayDetail } from '#contract/test-days/test-days.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { markBooking } from '../../api/test-days/bookings.ts'
import { lineQuery } from '../../api/test-days/line.ts'
import { testDayQuery } from '../../api/test-days/test-days.ts'
import { useLine } from '../../api/test-days/use-line.ts'
import { useMay } from '../../api/use-may.ts'
import { CheckInDialog } from '../../parts/test-days/check-in-dialog.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDayInFull } from '../../words/format-day.ts'
import { capital, countedInWords, inWords } from '../../words/format-number.ts'
import { today as todayIn } from '../../words/today.ts'
import { LineList } from './line-list.tsx'
import { ClosedTests, RunningTests } from './line-tests.tsx'
import { PaperLinks } from './paper-links.tsx'
import { SecondGraderDialog } from './second-grader-dialog.tsx'
import './line.css'

/** A test day while it takes place: what runs on the line, results as they close, and who is here. */
export default function LinePage({ id }: { id: string }) {
  const client = useQueryClient()
  const day = useQuery(testDayQuery(id)).data
  const { line, isLive } = useLine(id)
  const standards = useQuery(standardsQuery).data ?? []
  const mayPlan = useMay('plan-test-days')
  const [checking, setChecking] = useState<LineBooking | null>(null)
  const [pairing, setPairing] = useState<LineBooking | null>(null)
  const data = line.data
  const zone = day?.zone ?? null
  const askAgain = () => client.invalidateQueries({ queryKey: lineQuery(id).queryKey })
  const canMark = mayPlan && day !== undefined && day.calledOff === null && day.on <= todayIn(day.zone)
  return (
    <Page
      title="On the line"
      answer={data && formatLine(data)}
      why={day && formatWhere(day)}
      error={data ? null : line.error}
      onRetry={line.refetch}
      controls={
        data && (
          <>
            <Button onClick={() => window.print()}>Print the day’s list</Button>
            <Link className="button" href={addressTo(paths.testDay, { id })}>
              Slots and planning
            </Link>
          </>
        )
      }
    >
      {data && (
        <>
          <p className="line-live no-print" role="status">
            {isLive ? 'Live: changes show by themselves.' : 'Not live at the moment: asked again every 15 seconds.'}
          </p>
          {data && line.error && (
            <Notice kind="bad">
              <p>There is no answer from the server; this is how it stood last.</p>
            </Notice>
          )}
          <Section title="Running" note="now" className="no-print">
            {data.running.length === 0 ? (
              <Empty>Nothing runs now, as far as devices with a network say.</Empty>
            ) : (
              <RunningTests tests={data.running} standards={standards} zone={zone} />
            )}
          </Section>
          <Section title="Closed" note="latest first" className="no-print">
            {data.closed.length === 0 ? (
              <Empty>No result has come in yet.</Empty>
            ) : (
              <ClosedTests tests={data.closed} standards={standards} zone={zone} />
            )}
          </Section>
          <Section title="The day’s list" note="by time">
            {data.bookings.length === 0 ? (
              <Empty>Nobody whom you may see is booked.</Empty>
            ) : (
              <LineList
                bookings={data.bookings}
                standards={standards}
                zone={zone}
                onCheckIn={canMark ? setChecking : undefined}
                onSecond={mayPlan ? setPairing : undefined}
              />
            )}
          </Section>
          <Section title="For the day the battery dies" note="to print" className="no-print">
            <PaperLinks bookings={data.bookings} standards={standards} />
          </Section>
        </>
      )}
      {checking && (
        <CheckInDialog
          {...checking}
          onMark={async (mark) => {
            await markBooking(checking.id, mark)
            await askAgain()
          }}
          onClose={() => setChecking(null)}
        />
      )}
      {pairing && <SecondGraderDialog booking={pairing} onDone={askAgain} onClose={() => setPairing(null)} />}
    </Page>
  )
}

const formatWhere = ({ on, zone, place }: Pick<TestDayDetail, 'on' | 'zone' | 'place'>): string => {
  const today = todayIn(zone)
  return [on === today ? 'Today' : formatDayInFull(on, today), place].filter(Boolean).join(' · ')
}

const some = (count: number): string => (count === 0 ? 'none' : inWords(count))

/** The answer of the line: how many run, how many are through, who is still to come. */
const formatLine = ({ bookings, running, closed }: TestDayLine): string => {
  if (bookings.length === 0 && running.length === 0 && closed.length === 0) return 'Nobody is on the line yet.'
  const waiting = bookings.filter(({ state }) => state === 'checked in').length
  const toCome = bookings.filter(({ state }) => state === 'booked').length
  const runs = running.length === 0 ? 'Nothing runs now' : `${capital(countedInWords(running.length, 'test'))} running`
  return `${runs}; ${some(closed.length)} closed, ${some(waiting)} checked in, ${some(toCome)} still to come.`
}
