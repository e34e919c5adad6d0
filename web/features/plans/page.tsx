import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link, useParams } from 'wouter'
import type { Plan, RetestPlanRows } from '#contract/plans/plans.ts'
import { isUnderWay, planQuery, retestRowsQuery } from '../../api/plans/plans.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { formatPlaced, formatWhetherBest } from '../../domain/plans/format-plan.ts'
import { fullUnitName, timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { standardTitle } from '../../domain/standards/titles.ts'
import { addressTo, paths } from '../../paths.ts'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDay } from '../../words/format-day.ts'
import { today as todayIn } from '../../words/today.ts'
import { BookPlan } from './book-plan.tsx'
import { LevelTable } from './level-table.tsx'
import { NotPlaced } from './not-placed.tsx'
import { PlanControls } from './plan-controls.tsx'
import { PlanProgress } from './plan-progress.tsx'
import { PlannedWeeks } from './planned-weeks.tsx'
import { WorkOutAgain } from './work-out-again.tsx'
import './plans.css'

/** A retest plan: what would go where, week by week; ticked rows or all are booked in one go, and can be undone. */
export default function RetestPlanPage() {
  const { id } = useParams<{ id: string }>()
  const units = useQuery(unitsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const plan = useQuery(planQuery(id))
  const { data } = plan
  const isSolved = data !== undefined && !isUnderWay(data) && data.state !== 'failed'
  const rows = useQuery(retestRowsQuery(id, isSolved))
  const [left, setLeft] = useState<readonly string[]>([])
  const zone = timeZoneOf(units, data?.unitId ?? '')
  const today = todayIn(zone)
  const title = (code: string) => standardTitle(standards, code)
  const where =
    data && `${fullUnitName(units, data.unitId)}, ${formatDay(data.from, today)} to ${formatDay(data.to, today)}.`
  return (
    <Page
      title="Retest plan"
      answer={data && formatAnswer(data, rows.data)}
      why={data && (rows.data ? `${where} ${formatWhetherBest(data.levels, data.state)}` : (data.failure ?? where))}
      error={plan.error ?? rows.error}
      onRetry={plan.refetch}
      controls={data && <PlanControls key={id} plan={data} units={units} />}
    >
      {data && rows.data && rows.data.rows.length > 0 && (
        <p className="no-print">
          <Link href={addressTo(paths.ahead, { unitId: data.unitId, on: data.to, planned: id })}>
            How many would be certified with it
          </Link>
        </p>
      )}
      {data && isUnderWay(data) && <PlanProgress plan={data} />}
      {data && (data.state === 'stale' || data.state === 'failed') && <WorkOutAgain plan={data} today={today} />}
      {data && rows.data && (
        <>
          <BookPlan id={id} rows={rows.data.rows} left={left} onLeft={setLeft} />
          <PlannedWeeks
            rows={rows.data.rows}
            left={left}
            onTick={(pairs, on) =>
              setLeft(on ? left.filter((one) => !pairs.includes(one)) : [...new Set([...left, ...pairs])])
            }
            title={title}
            zone={zone}
            today={today}
          />
          <NotPlaced {...rows.data} title={title} today={today} />
          <Section title="How good it is" note="each line counts before those below it">
            <LevelTable levels={data.levels} />
          </Section>
        </>
      )}
    </Page>
  )
}

function formatAnswer({ state }: Plan, rows: RetestPlanRows | undefined): string {
  if (rows) return formatPlaced(rows)
  return state === 'failed' ? 'This plan was not worked out.' : 'The plan is being worked out.'
}
