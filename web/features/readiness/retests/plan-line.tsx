import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { addDays } from '#calendar/plain-date.ts'
import { askedPlanQuery, isUnderWay, planQuery, retestRowsQuery } from '../../../api/plans/plans.ts'
import { formatBestChange, formatPlaced } from '../../../domain/plans/format-plan.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Failure } from '../../../ui/failure.tsx'
import { formatDayInFull } from '../../../words/format-day.ts'

/** So far ahead it is planned where nobody says how far. */
const DAYS_AHEAD = 45

interface PlanLineProps {
  unitId: string
  today: string
  title: (code: string) => string
}

/** What a plan for the open retests of a unit comes to, with the way to it. */
export function PlanLine({ unitId, today, title }: PlanLineProps) {
  const to = addDays(today, DAYS_AHEAD)
  const asked = useQuery(askedPlanQuery({ kind: 'retests', unitId, from: today, to }))
  const plan = useQuery(planQuery(asked.data?.id))
  const isSolved = plan.data !== undefined && !isUnderWay(plan.data) && plan.data.state !== 'failed'
  const rows = useQuery(retestRowsQuery(asked.data?.id, isSolved))
  const error = asked.error ?? plan.error ?? rows.error
  if (error) return <Failure error={error} onRetry={asked.refetch} />
  if (!asked.data) return <p className="muted plan-line">Working out what can be placed …</p>
  const link = (
    <Link href={addressTo(paths.retestPlan, { id: asked.data.id })}>
      {rows.data ? 'See and book the plan' : 'Watch'}
    </Link>
  )
  if (plan.data?.state === 'failed') return <p className="plan-line">The plan could not be worked out. {link}</p>
  if (!rows.data) return <p className="muted plan-line">Working out what can be placed … {link}</p>
  const { bestChange } = rows.data
  return (
    <p className="plan-line">
      <b>{formatPlaced(rows.data, 'retest')}</b> Not booked yet, with the free slots until {formatDayInFull(to, today)}.{' '}
      {bestChange && `${formatBestChange(bestChange, title, today)} `}
      {link}
    </p>
  )
}
