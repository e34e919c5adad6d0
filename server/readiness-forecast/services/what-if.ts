import { readTimeZone } from '../../access/db/units.db.ts'
import type { Context } from '../../context/context.ts'
import type { WhatIf, WhatIfQuery } from '../../contract/readiness-forecast/readiness-forecast.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { addDays, daysBetween } from '../../domain/calendar/plain-date.ts'
import { instantInZone, minuteInZone } from '../../domain/calendar/zoned-instant.ts'
import { progressOn, retestsOf, statusOf } from '../../domain/certification/status.ts'
import { type SupposedSoldier, supposeTests } from '../../domain/readiness-forecast/suppose-tests.ts'
import { invalid } from '../../errors.ts'
import { listNeeds, type NeedRow } from '../db/needs.db.ts'
import type { SoldierRow } from '../db/soldiers-ahead.db.ts'
import { attended, type Gathered, gatherAhead } from './gather-ahead.ts'
import { openCertification, openScope, requireDayToCome } from './open-query.ts'
import { supposedBy } from './supposed-by.ts'
import { toForecast } from './to-forecast.ts'

/** A forecast as things are booked, and as it would be; nothing is stored. */
export async function whatIf(context: Context, actor: Actor, query: WhatIfQuery): Promise<WhatIf> {
  const { unitId, certification: code, on } = query
  const { scope, asOf } = await openScope(context, actor, unitId)
  requireDayToCome(on, asOf)
  const certification = await openCertification(context, code)
  const [, movedTo = on] = query.moved?.split('/') ?? []
  requireDayToCome(movedTo, asOf)
  const gatherOn = (day: string) => gatherAhead(context, scope, certification, { unitId, on: day, asOf }, 1)
  const needsOn = (day: string) => {
    return listNeeds(context.db, scope, { unitId, on: day, certificationId: certification.id })
  }
  const [supposed, gathered, needs] = await Promise.all([
    supposedBy(context, actor, query, { standards: certification.standards, on: movedTo }),
    gatherOn(on),
    needsOn(on),
  ])
  const after =
    movedTo === on
      ? { gathered, needs }
      : { gathered: await gatherOn(movedTo), needs: await withMoved(context, query, needs, await needsOn(movedTo)) }
  const { tests, free } = supposeTests(
    after.gathered.rows.soldiers.map((soldier) => toSupposed(after.gathered, soldier)),
    supposed,
  )
  return {
    before: toForecast(gathered, needs),
    after: toForecast(after.gathered, after.needs, ({ soldierId }) => tests.get(soldierId)!),
    free,
  }
}

/** The ceremonies of another day with one that is moved to it, at the same time by the clock. */
async function withMoved(
  context: Context,
  { moved, on }: WhatIfQuery,
  needs: readonly NeedRow[],
  others: readonly NeedRow[],
): Promise<NeedRow[]> {
  const [id, to = on] = moved?.split('/') ?? []
  const ceremony = needs.find((one) => one.id === id)
  if (!ceremony) {
    const detail = 'Only a ceremony of the day asked about can be moved, one that asks for this certification.'
    throw invalid('no-such-ceremony', 'moved', detail)
  }
  const zone = (await readTimeZone(context.db, ceremony.unitId)) ?? context.timeZone
  const days = daysBetween(on, to)
  const [from, until] = [ceremony.from, ceremony.to].map((at) => daysLater(at, days, zone)) as [number, number]
  return [...others, { ...ceremony, from, to: until }]
}

/** An instant so many days later, at the same time by the clock of a zone. In and out: milliseconds since 1970. */
const daysLater = (at: number, days: number, zone: string): number =>
  instantInZone(addDays(dayInZone(at, zone), days), minuteInZone(at, zone), zone)

function toSupposed({ certification, breaks, filter }: Gathered, soldier: SoldierRow): SupposedSoldier {
  const { history, soldierId, absences } = soldier
  const progress = progressOn(certification, breaks, history, filter.asOf)
  const { toward } = statusOf(certification, breaks, progress, [], filter.asOf)
  const retests = retestsOf(progress, history.reviews, filter.asOf)
  const open = soldier.isCertified
    ? []
    : certification.standards.flatMap((standard) => {
        const retest = retests.find((one) => one.standard === standard)
        if (retest?.needsReview || toward.some((go) => go.standard === standard)) return []
        return [{ standard, earliest: retest?.earliest ?? null, due: retest?.due ?? null }]
      })
  return {
    soldierId,
    tests: attended(soldier),
    open,
    isAway: (day) => absences.some(({ from, through }) => from <= day && (through === null || day <= through)),
  }
}
