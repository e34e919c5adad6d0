import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { DayList } from '../../contract/test-days/day-list.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { addDays } from '../../domain/calendar/plain-date.ts'
import { inForceBetween } from '../../domain/standards/in-force-between.ts'
import { listCoached, listDayBookings, listGradedDays } from '../db/day-list.db.ts'

/** So far ahead a device holds what is booked: who tests on Saturday may have no signal from Friday on. */
const DAYS_AHEAD = 7

/** What an account's device keeps to grade without a network: the grader's bookings, the sponsor's candidates, the standards. */
export async function getDayList(context: Context, actor: Actor): Promise<DayList> {
  const scope = await scopeFor(context, actor)
  const lastDay = addDays(scope.today, DAYS_AHEAD)
  const [bookings, testDays, coached, catalogue] = await Promise.all([
    listDayBookings(context.db, scope, lastDay, context.timeZone),
    listGradedDays(context.db, scope, lastDay),
    listCoached(context.db, scope),
    context.catalogue.current(context.db),
  ])
  const mayGrade = scope.graderId !== null || scope.sponsorId !== null
  const versions = [...catalogue.standards.values()].flatMap((all) => inForceBetween(all, scope.today, lastDay))
  return {
    today: scope.today,
    at: context.clock().toISOString(),
    bookings,
    testDays,
    coached,
    retests: mayGrade ? retestTerms(catalogue) : [],
    standards: mayGrade ? versions.map(({ definition, id, publishedAt }) => ({ ...definition, id, publishedAt })) : [],
  }
}

/** When a NO-GO is retested, by standard and certification. */
const retestTerms = ({ certifications }: Catalogue): DayList['retests'] =>
  certifications.flatMap(({ standards, arms, terms }) =>
    standards.map((standard) => ({
      standard,
      arms: [...arms],
      terms: terms.map(({ effectiveFrom, waitDays, dueDays }) => ({ effectiveFrom, waitDays, dueDays })),
    })),
  )
