import { useCallback, useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { rightNow } from '../../../api/server-clock.ts'
import { ClockNotice } from '../../../device/sheet/clock-notice.tsx'
import { formatKeepingProblem } from '../../../device/sheet/format-keeping-problem.ts'
import { askToPersist } from '../../../device/store/database.ts'
import { dayOpenedAt } from '../../../device/store/day-store.ts'
import { readPendingActions } from '../../../device/store/pending-action-store.ts'
import { useDay } from '../../../device/store/use-day.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import { startChoice } from '../../../domain/sheets/grading/start-choice.ts'
import { withPendingAction } from '../../../domain/sheets/grading/turn-of.ts'
import { addressTo, gradePaths } from '../../../paths.ts'
import { Page } from '../../../ui/page.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { today } from '../../../words/today.ts'
import { Cautions } from './cautions.tsx'
import { keepNewPractice, keepNewSheet, keepWalkIn, walkInDayOf } from './keep-new.ts'
import { StartForm } from './start-form.tsx'
import type { Filled } from './use-start-form.ts'
import './grade.css'

/** Before the first call: the cautions once a day, then whom, what, with which arm, and the conditions. */
export function StartPage({ account }: { account: Session }) {
  const [asked] = useFilters(['booking', 'coached', 'standard', 'measures'])
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
          isMissing ? 'It downloads once this phone has a network; the sheets on the phone are still there.' : undefined
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

  const begin = async (filled: Filled) => {
    try {
      if (filled.measures) {
        const id = await keepNewPractice(account, filled, filled.measures)
        go(addressTo(gradePaths.practice, { id }), { replace: true })
        return
      }
      const walkInDay = walkInDayOf(choice, day.list, on)
      const id = await keepNewSheet(account, choice, filled, walkInDay)
      void askToPersist()
      if (walkInDay !== null) {
        await keepWalkIn(account, id, filled, walkInDay)
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
      toDrill={asked.measures.split(' ').filter(Boolean)}
      back={deskPath(account)}
      mayGrade={account.soldierId !== null}
      problem={problem}
      onStart={begin}
    />
  )
}
