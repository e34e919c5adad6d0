import { useCallback } from 'react'
import { Link } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { rightNow } from '../../../api/server-clock.ts'
import { readDay } from '../../../device/store/day-store.ts'
import { readPendingActions } from '../../../device/store/pending-action-store.ts'
import { readSheets } from '../../../device/store/sheet-store.ts'
import { useKept } from '../../../device/store/use-kept.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import { nextBooking, withPendingAction } from '../../../domain/sheets/grading/turn-of.ts'
import { addressTo, gradePaths } from '../../../paths.ts'
import { today } from '../../../words/today.ts'

/** From one sheet to the next candidate of the day in one tap; to the list where nobody is left. */
export function Next({ account, after }: { account: Session; after: string }) {
  const { accountId } = account
  const here = useKept(
    useCallback(
      () => Promise.all([readDay(accountId), readSheets(accountId), readPendingActions(accountId)]),
      [accountId],
    ),
  ).value
  const [day, sheets = [], pendingActions = []] = here ?? []
  const bookings = (day?.list.bookings ?? []).map((booking) => withPendingAction(booking, pendingActions))
  const next = nextBooking(bookings, sheets, today(null, rightNow()), after)
  const list = <Link href={deskPath(account)}>To the list</Link>
  if (!next) {
    return (
      <Link className="button button-main" href={deskPath(account)}>
        To the list
      </Link>
    )
  }
  return (
    <>
      <Link className="button button-main" href={addressTo(gradePaths.start, { booking: next.id })}>
        <span>
          Next candidate:{' '}
          <bdi>
            {next.candidate.grade} {next.candidate.familyName}
          </bdi>
        </span>
      </Link>
      {list}
    </>
  )
}
