import type { FindingsQuery, MeasureFindings, SponsorFindings } from '../../contract/findings.ts'
import { type FindingsFilter, readMeasureFindings, readSponsorFindings } from '../../db/findings.db.ts'
import { coverPeriod } from '../../domain/tallies/cover-period.ts'
import { invalid } from '../../errors.ts'
import type { Actor } from '../actor.ts'
import type { Context } from '../context.ts'
import { today } from '../today.ts'
import { requireKnownUnit } from './readiness.ts'

/** Which measures fail: counts by measure over the counted test sheets that the filter names. */
export async function getMeasureFindings(
  context: Context,
  _actor: Actor,
  query: FindingsQuery,
): Promise<MeasureFindings> {
  return readMeasureFindings(context.db, await toFilter(context, query))
}

/** Attempts and passes of each sponsor's candidates, by name. */
export async function getSponsorFindings(
  context: Context,
  _actor: Actor,
  query: FindingsQuery,
): Promise<SponsorFindings> {
  return readSponsorFindings(context.db, await toFilter(context, query), await today(context, query.unitId))
}

async function toFilter(context: Context, query: FindingsQuery): Promise<FindingsFilter> {
  await requireKnownUnit(context, query.unitId)
  const { standard, from = null, to = null, unitId, attempts, arm } = query
  if (from !== null && to !== null && from > to) {
    throw invalid('period-upside-down', 'to', 'The period ends before it begins: mend from or to.')
  }
  return { standard, unitId, arm, kind: attempts === 'all' ? undefined : attempts, periods: coverPeriod(from, to) }
}
