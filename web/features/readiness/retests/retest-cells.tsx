import { Link } from 'wouter'
import type { Retest } from '#contract/standards/certifications.ts'
import type { Booking } from '#contract/test-days/test-days.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { keyOf } from './filter-retests.ts'

interface TickProps {
  retest: Retest
  title: string
  chosen: readonly string[]
  onChoose: (key: string, on: boolean) => void
}

/** Chooses a retest to be booked. */
export function Tick({ retest, title, chosen, onChoose }: TickProps) {
  return (
    <label className="tick retest-tick">
      <input
        type="checkbox"
        checked={chosen.includes(keyOf(retest))}
        onChange={(event) => onChoose(keyOf(retest), event.target.checked)}
      />
      <span className="out-of-sight">
        Choose {retest.name}, {title}
      </span>
    </label>
  )
}

/** Who has to retest, and of which unit. */
export function Soldier({ retest, unitName }: { retest: Retest; unitName: string }) {
  return (
    <>
      <Link href={addressTo(paths.candidate, { id: retest.soldierId, standard: retest.standard })}>
        <b>
          <bdi>
            {retest.grade} {retest.name}
          </bdi>
        </b>
      </Link>{' '}
      <span className="muted one-line">{retest.rosterNumber}</span>
      <span className="muted retest-unit">{unitName}</span>
    </>
  )
}

/** By when, and why that was moved. */
export function DueDay({ retest: { due, dueMoved }, asOf }: { retest: Retest; asOf: string }) {
  if (!dueMoved) return <span className="one-line">{formatDay(due, asOf)}</span>
  return (
    <>
      <span className="one-line">{formatDay(due, asOf)}</span>
      <span className="muted small">
        {' '}
        moved from {formatDay(dueMoved.ruleDue, asOf)}: <bdi>{dueMoved.reason}</bdi>
      </span>
    </>
  )
}

/** For which day it is booked, and whether that is too late. */
export function BookedDay({ retest, booking, asOf }: { retest: Retest; booking: Booking | undefined; asOf: string }) {
  if (!booking) return <span className="muted">not booked</span>
  return (
    <>
      <Link href={addressTo(paths.testDay, { id: booking.testDayId })}>{formatDay(booking.on, asOf)}</Link>
      {booking.on > retest.due && <b className="retest-unit">after the due day</b>}
    </>
  )
}

/** What the office can do about a retest, one by one. */
export function Doing({ retest, onMove }: { retest: Retest; onMove: (retest: Retest) => void }) {
  return (
    <span className="retest-doing">
      <Button kind="quiet" onClick={() => onMove(retest)}>
        Move due day<span className="out-of-sight"> of {retest.name}</span>
      </Button>
      {retest.needsReview && (
        <Link href={addressTo(paths.review, { soldierId: retest.soldierId, standard: retest.standard })}>
          Counselling sheet<span className="out-of-sight"> for {retest.name}</span>
        </Link>
      )}
    </span>
  )
}
