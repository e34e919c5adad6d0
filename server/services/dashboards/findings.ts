import type { FindingsQuery, MeasureFindings, SponsorFindings } from '../../contract/findings.ts'
import { type FindingsFilter, readMeasureFindings, readSponsorFindings } from '../../db/findings.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { coverPeriod } from '../../domain/tallies/cover-period.ts'
import { invalid } from '../../errors.ts'
import { findingsView } from '../access/findings-view.ts'
import type { Context } from '../context.ts'
import { today } from '../today.ts'

/** Which measures fail: counts by measure over the counted test sheets that the filter names. */
export async function getMeasureFindings(
  context: Context,
  actor: Actor,
  query: FindingsQuery,
): Promise<MeasureFindings> {
  const { unitId } = await findingsView(context, actor, query.unitId)
  return readMeasureFindings(context.db, toFilter(query, unitId))
}

/** Attempts and passes of each sponsor's candidates, by name. */
export async function getSponsorFindings(
  context: Context,
  actor: Actor,
  query: FindingsQuery,
): Promise<SponsorFindings> {
  const { unitId, sponsorIds } = await findingsView(context, actor, query.unitId)
  return readSponsorFindings(context.db, toFilter(query, unitId), sponsorIds, await today(context, unitId))
}

function toFilter(query: FindingsQuery, unitId: string | undefined): FindingsFilter {
  const { standard, from = null, to = null, attempts, arm } = query
  if (from !== null && to !== null && from > to) {
    throw invalid('period-upside-down', 'to', 'The period ends before it begins: mend from or to.')
  }
  return { standard, unitId, arm, kind: attempts === 'all' ? undefined : attempts, periods: coverPeriod(from, to) }
}
