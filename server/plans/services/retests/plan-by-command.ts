import { setTimeout } from 'node:timers/promises'
import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import type { PlanBody, RetestPlanRows } from '../../../contract/plans/plans.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { addDays } from '../../../domain/calendar/plain-date.ts'
import { AppError } from '../../../errors.ts'
import { readTopUnit } from '../../db/retest-facts.db.ts'
import { acceptPlan } from '../accept-plan.ts'
import { askPlan } from '../ask-plan.ts'
import { getPlan } from '../get-plan.ts'
import { planRuns } from '../plan-runs.ts'
import { getRetestRows } from './plan-rows.ts'

export interface PlanOptions {
  /** Left out: today. */
  readonly from: string | undefined
  /** Left out: so many days on. */
  readonly to: string | undefined
  /** Left out: the unit at the top. */
  readonly unitId: string | undefined
  readonly options: Pick<PlanBody, 'renewals' | 'firstTests' | 'moveBookings' | 'seconds'>
  readonly accept: boolean
}

const DAYS_AHEAD = 45
const WATCH_MS = 200

/** Works a retest plan out and says it line by line; accepts all of it where asked. Out: whether every test was placed. */
export async function planByCommand(
  context: Context,
  actor: Actor,
  asked: PlanOptions,
  say: (line: string) => void,
): Promise<boolean> {
  const unitId = asked.unitId ?? (await readTopUnit(context.db))
  if (unitId === null) throw new AppError('invalid', 'no-unit', 'There is no unit yet; add one first.')
  const from = asked.from ?? (await todayOf(context, unitId))
  const to = asked.to ?? addDays(from, DAYS_AHEAD)
  const runs = planRuns(context, (error) => say(String(error)))
  try {
    const { id } = await askPlan(context, runs, actor, { kind: 'retests', unitId, from, to, ...asked.options })
    const plan = await waitFor(context, actor, id)
    if (plan.state === 'failed') throw new AppError('unavailable', 'plan-failed', plan.failure ?? 'The plan failed.')
    const rows = await getRetestRows(context, actor, id)
    for (const line of linesOf(rows)) say(line)
    for (const { name, value, bound } of plan.levels)
      say(`${name}: ${value}${value === bound ? '' : ` (at best ${bound})`}`)
    if (asked.accept && rows.rows.some(({ state }) => state === 'proposed')) {
      const { booked, moved } = await acceptPlan(context, actor, id, { pairs: 'all' })
      say(`Booked: ${booked}. Moved: ${moved}.`)
    }
    return rows.unplaced.length === 0
  } finally {
    await runs.stop()
  }
}

async function waitFor(context: Context, actor: Actor, id: string) {
  for (;;) {
    const plan = await getPlan(context, actor, id)
    if (plan.state !== 'waiting' && plan.state !== 'solving') return plan
    await setTimeout(WATCH_MS)
  }
}

function linesOf({ open, inTime, rows, unplaced }: RetestPlanRows): string[] {
  return [
    `${inTime} of ${open} tests can be placed by their due day.`,
    ...rows.map(
      ({ startsAt, place, candidateName, standard, graderName, due, daysLate, movesFrom }) =>
        `${startsAt}  ${candidateName}, ${standard}, ${place || 'no place'}, grader ${graderName ?? 'not said yet'}, due ${due ?? 'none'}${daysLate > 0 ? `, ${daysLate} days late` : ''}${movesFrom ? ', moves' : ''}`,
    ),
    ...unplaced.map(
      ({ candidateName, standard, due, detail }) =>
        `not placed: ${candidateName}, ${standard}, due ${due ?? 'none'}. ${detail}`,
    ),
  ]
}
