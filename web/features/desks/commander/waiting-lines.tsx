import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { waitingAwardsQuery } from '../../../api/readiness/commanders-words.ts'
import { openAmendmentsQuery } from '../../../api/sheets/appeals.ts'
import { paths } from '../../../paths.ts'
import { counted } from '../../../words/format-number.ts'

/** What waits for the commander’s word. */
export function WaitingLines() {
  const amendments = useQuery(openAmendmentsQuery)
  const waiting = useInfiniteQuery(waitingAwardsQuery({})).data?.pages[0]
  return (
    <>
      {amendments.data && amendments.data.length > 0 && (
        <p>
          <Link href={paths.contested}>
            {counted(amendments.data.length, 'amendment waits', 'amendments wait')} for a second person, you or the
            office.
          </Link>
        </p>
      )}
      {waiting && waiting.items.length > 0 && (
        <p>
          <Link href={paths.approvals}>
            {waiting.next ? 'More than ' : ''}
            {counted(waiting.items.length, 'certification waits', 'certifications wait')} for your signature.
          </Link>
        </p>
      )}
    </>
  )
}
