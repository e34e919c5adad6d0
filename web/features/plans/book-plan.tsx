import { useMutation, useQueryClient } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { RetestPlanRows } from '#contract/plans/plans.ts'
import { ApiError } from '../../api/errors.ts'
import { acceptPlan, undoPlan } from '../../api/plans/plans.ts'
import { paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Notice } from '../../ui/notice.tsx'
import { counted, countedInWords, plural } from '../../words/format-number.ts'

interface BookPlanProps {
  id: string
  rows: RetestPlanRows['rows']
  /** Pairs that are not ticked. */
  left: readonly string[]
  onLeft: (pairs: readonly string[]) => void
}

/** Books the ticked rows of a plan in one go, says what was booked, and undoes it. */
export function BookPlan({ id, rows, left, onLeft }: BookPlanProps) {
  const client = useQueryClient()
  const refresh = () => client.invalidateQueries()
  const accept = useMutation({ mutationFn: (pairs: string[] | 'all') => acceptPlan(id, pairs), onSettled: refresh })
  const undo = useMutation({ mutationFn: () => undoPlan(id), onSettled: refresh })
  const proposed = rows.filter(({ state }) => state === 'proposed').map(({ pair }) => pair)
  const ticked = proposed.filter((pair) => !left.includes(pair))
  const accepted = rows.filter(({ state }) => state === 'accepted').length
  const isAll = ticked.length === proposed.length
  return (
    <>
      {accepted > 0 && (
        <div className="plan-doing no-print" role="status">
          <p>
            <b>{counted(accepted, 'test')} of this plan booked.</b> Candidates, sponsors and graders are told.{' '}
            <Link href={paths.testDays}>See the test days</Link>
          </p>
          <Button onClick={() => undo.mutate()} disabled={undo.isPending}>
            Undo
          </Button>
        </div>
      )}
      {undo.data && (
        <Notice>
          {counted(undo.data.undone, 'booking')} taken back
          {undo.data.left > 0 &&
            `; ${countedInWords(undo.data.left, 'booking')} ${plural(undo.data.left, 'was', 'were')} changed since and left`}
          .
        </Notice>
      )}
      {undo.error && <Failure error={undo.error} />}
      {proposed.length > 0 && (
        <div className="plan-doing no-print">
          <Button
            kind="main"
            onClick={() => accept.mutate(isAll ? 'all' : ticked)}
            disabled={accept.isPending || ticked.length === 0}
          >
            {formatBook(ticked.length, isAll)}
          </Button>
          <Button kind="quiet" onClick={() => onLeft(ticked.length > 0 ? proposed : [])}>
            {ticked.length > 0 ? 'Tick none' : 'Tick all'}
          </Button>
          <span className="muted">Nothing is booked before that.</span>
        </div>
      )}
      {accept.error && <Refused error={accept.error} />}
    </>
  )
}

function formatBook(count: number, isAll: boolean): string {
  if (!isAll) return `Book the ${counted(count, 'ticked test')}`
  return count === 1 ? 'Book this test' : `Book all ${counted(count, 'test')}`
}

/** Why nothing was booked, row by row. */
function Refused({ error }: { error: Error }) {
  const items = error instanceof ApiError ? error.items : []
  return (
    <Notice kind="bad">
      <p>{error.message}</p>
      <ul>
        {items.map(({ pointer, detail }) => (
          <li key={`${pointer} ${detail}`}>{detail}</li>
        ))}
      </ul>
    </Notice>
  )
}
