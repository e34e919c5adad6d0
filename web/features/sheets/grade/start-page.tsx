import { useCallback, useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { rightNow } from '../../../api/server-clock.ts'
import { ClockNotice } from '../../../device/sheet/clock-notice.tsx'
import { formatKeepingProblem } from '../../../device/sheet/format-keeping-problem.ts'
import { askToPersist } from '../../../device/store/database.ts'
import { dayOpenedAt } from '../../../device/store/day-store.ts'
import { keepPendingAction, readPendingActions } from '../../../device/store/pending-action-store.ts'
import { keepSheet, readSheet } from '../../../device/store/sheet-store.ts'
import { useDay } from '../../../device/store/use-day.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { newId } from '../../../domain/new-id.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import { startSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import { startChoice } from '../../../domain/sheets/grading/start-choice.ts'
import { withPendingAction } from '../../../domain/sheets/grading/turn-of.ts'
import { addressTo, gradePaths } from '../../../paths.ts'
import { Page } from '../../../ui/page.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { today } from '../../../words/today.ts'
import { Cautions } from './cautions.tsx'
import { type Filled, StartForm } from './start-form.tsx'
import './grade.css'

/** Before the first call: the cautions once a day, then whom, what, with which arm, and the conditions. */
export function StartPage({ account }: { account: Session }) {
  const [asked] = useFilters(['booking', 'coached', 'standard'])
  const { day, isRead, error } = useDay(account.accountId)
  const { value: pendingActions } = useKept(
    useCallback(() => readPendingActions(account.accountId), [account.accountId]),
  )
  const [problem, setProblem] = useState('')
  const { goOn } = useQueue(account.accountId)
  const [, go] = useLocation()
  const on = today(null, rightNow())
  const opened = useKept(
    useCallback(() => dayOpenedAt(account.accountId, on).then((at) => at ?? ''), [account.accountId, on]),
  )

  if (!day || !pendingActions || opened.value === undefined) {
    const isMissing = isRead && error !== null && !day
    return (
      <Page
        title="Start a sheet"
        answer={isMissing ? 'The day’s list is not on this phone yet.' : undefined}
        why={
          isMissing
            ? 'It comes down once this phone has a network; the sheets on the phone are still there.'
            : undefined
        }
      />
    )
  }
  const bookings = day.list.bookings.map((booking) => withPendingAction(booking, pendingActions))
  const choice = startChoice({ ...day.list, bookings }, asked)
  if (!choice) {
    return (
      <Page
        title="Start a sheet"
        answer="This is not on the day’s list."
        why={
          <>
            It may have been moved or cancelled. <Link href={deskPath(account)}>To the list</Link>
          </>
        }
      />
    )
  }
  if (opened.value === '') return <Cautions accountId={account.accountId} on={on} standards={day.list.standards} />

  const start = async ({ standard, head }: Filled) => {
    const own = choice.booking && !choice.booking.asSecond ? choice.booking.id : null
    const isTaken = own !== null && (await readSheet(account.accountId, own)) !== undefined
    const id = own === null || isTaken ? newId() : own
    const isWalkIn = choice.booking === null && choice.purpose === 'test'
    const walkInDay = isWalkIn ? (day.list.testDays?.find((one) => one.on === on)?.id ?? null) : null
    const sheet = startSheet(
      {
        ...head,
        purpose: choice.purpose,
        standard: standard.code,
        standardVersion: standard.version,
        graderId: account.soldierId ?? '',
        testDayId: walkInDay ?? choice.booking?.testDayId ?? null,
        // The sheet of a booking has the booking's id, so that the second grader knows it without a network.
        secondOf: choice.booking?.asSecond ? (choice.booking.firstSheetId ?? choice.booking.id) : null,
      },
      rightNow().toISOString(),
    )
    try {
      await keepSheet({
        accountId: account.accountId,
        accountName: account.name,
        id,
        state: 'running',
        sheet,
        revision: 1,
        closedAt: null,
        body: null,
        message: '',
        refusedWith: null,
        tries: 0,
        answer: null,
      })
      void askToPersist()
      if (walkInDay !== null) {
        const { rosterNumber, familyName } = head.candidate
        const body = { rosterNumber, familyName, standard: standard.code, found: head.conditions }
        const walkIn = { accountId: account.accountId, id, at: new Date().toISOString(), state: 'waiting' } as const
        await keepPendingAction({ ...walkIn, message: '', kind: 'walk-in', testDayId: walkInDay, body })
        void goOn()
      }
      go(addressTo(gradePaths.sheet, { id }), { replace: true })
    } catch (failure) {
      setProblem(formatKeepingProblem(failure))
    }
  }
  return (
    <StartForm
      clock={<ClockNotice />}
      choice={choice}
      asked={asked.standard}
      back={deskPath(account)}
      mayGrade={account.soldierId !== null}
      problem={problem}
      onStart={start}
    />
  )
}
