import { useCallback, useState, useSyncExternalStore } from 'react'
import type { Session } from '#contract/accounts/session.ts'
import type { ListedBooking } from '#contract/test-days/day-list.ts'
import { clockAhead, onClockFound, rightNow } from '../../../api/server-clock.ts'
import { ClockNotice } from '../../../device/sheet/clock-notice.tsx'
import { OnThisPhone } from '../../../device/sheet/on-this-phone.tsx'
import { OthersWaiting } from '../../../device/sheet/others-waiting.tsx'
import { formatOfflineMode, isAppHere, onAppHere } from '../../../device/store/offline-mode.ts'
import { readPendingActions } from '../../../device/store/pending-action-store.ts'
import { readSheets } from '../../../device/store/sheet-store.ts'
import { useAccount } from '../../../device/store/use-account.ts'
import { useDay } from '../../../device/store/use-day.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { useKeepNoted } from '../../../device/store/use-study.ts'
import { turnOf, withPendingAction } from '../../../domain/sheets/grading/turn-of.ts'
import { Button } from '../../../ui/button.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { today } from '../../../words/today.ts'
import { BookingList } from './booking-list.tsx'
import { formatToday, formatUnderWay } from './format-day-list.ts'
import { PendingActionsPart } from './pending-actions-part.tsx'
import './grader.css'
import { CheckIn } from './check-in.tsx'
import { CoachedPart } from './coached-part.tsx'
import { DayControls } from './day-controls.tsx'

/** The grader's desk: who is booked today, the sheets on this phone, and how sending stands. It works from what the phone has. */
export default function GraderDesk() {
  const account = useAccount()
  return account ? <Desk account={account} /> : null
}

function Desk({ account: { accountId } }: { account: Session }) {
  const { day, isRead, error, isFetching, fetchAgain } = useDay(accountId)
  useKeepNoted(accountId, day?.list.standards)
  const { value: sheets = [] } = useKept(useCallback(() => readSheets(accountId), [accountId]))
  const { value: pendingActions = [] } = useKept(useCallback(() => readPendingActions(accountId), [accountId]))
  const { goOn } = useQueue(accountId)
  const [checking, setChecking] = useState<ListedBooking | null>(null)
  useSyncExternalStore(onClockFound, clockAhead)
  const on = today(null, rightNow())
  const offlineMode = formatOfflineMode()
  const isReady = useSyncExternalStore(onAppHere, isAppHere)
  if (!day) {
    const isMissing = isRead && !isFetching && error !== null
    return (
      <Page
        title="Grader’s desk"
        answer={isMissing ? 'The day’s list is not on this phone yet.' : undefined}
        why={isMissing ? error.message : undefined}
        controls={isMissing && <Button onClick={fetchAgain}>Try again</Button>}
      >
        <OnThisPhone accountId={accountId} />
      </Page>
    )
  }
  const { bookings, coached, standards } = day.list
  const todays = bookings
    .filter((booking) => booking.on === on)
    .map((booking) => withPendingAction(booking, pendingActions))
  const lines = [...new Map(todays.map(({ testDayId, place }) => [testDayId, place]))]
  const later = [...new Set(bookings.filter((booking) => booking.on > on).map((booking) => booking.on))]
  const places = [...new Set(todays.map(({ place }) => place).filter(Boolean))]
  // The latest is the one the phone went down with.
  const running = sheets.filter(({ state }) => state === 'running').at(-1)
  const count = formatToday(todays.map((booking) => turnOf(booking, sheets)))
  const where = places.length > 0 ? `${places.join(', ')}.` : ''
  return (
    <Page
      title="Grader’s desk"
      answer={running ? <bdi>{formatUnderWay(running)}</bdi> : count}
      why={(running ? `${count} ${where}` : where) || undefined}
      controls={
        <DayControls
          running={running}
          lines={lines}
          fetchedAt={day.fetchedAt}
          on={on}
          isReady={offlineMode === '' ? isReady : null}
          error={error}
          onAgain={fetchAgain}
        />
      }
    >
      {offlineMode !== '' && (
        <Notice>
          <p>{offlineMode}</p>
        </Notice>
      )}
      <ClockNotice />
      <OthersWaiting accountId={accountId} />
      <OnThisPhone accountId={accountId} />
      <PendingActionsPart pendingActions={pendingActions} onSend={() => void goOn()} />
      <Section title="Today">
        {todays.length === 0 ? (
          <Empty>
            <p>
              The training office books candidates with graders. Whoever comes without a booking can be tested, too.
            </p>
          </Empty>
        ) : (
          <BookingList bookings={todays} standards={standards} sheets={sheets} isToday onCheckIn={setChecking} />
        )}
      </Section>
      {later.map((each) => (
        <Section key={each} title={formatDay(each, on)} note="on this phone already">
          <BookingList
            bookings={bookings.filter((booking) => booking.on === each)}
            standards={standards}
            sheets={sheets}
            isToday={false}
          />
        </Section>
      ))}
      {coached.length > 0 && <CoachedPart coached={coached} />}
      {checking && (
        <CheckIn
          accountId={accountId}
          booking={checking}
          onKept={() => void goOn()}
          onClose={() => setChecking(null)}
        />
      )}
    </Page>
  )
}
