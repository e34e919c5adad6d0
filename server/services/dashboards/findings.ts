import type { FindingsQuery, MeasureFindings, SponsorFindings } from '../../contract/findings.ts'
import { type FindingsFilter, readMeasureFindings, readSponsorFindings } from '../../db/findings.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { coverPeriod } from '../../domain/tallies/cover-period.ts'
import { invalid } from '../../errors.ts'
import { findingsView } from '../access/findings-view.ts'
import type { Context } from '../context.ts'
import { fromCursor, toPage } from '../cursor.ts'
import { today } from '../today.ts'

/** Which measures fail: counts by measure over the counted test sheets that the filter names. */
export async function getMeasureFindings(
  context: Context,
  actor: Actor,
  query: FindingsQuery,
): Promise<MeasureFindings> {
  const { unitId } = await findingsView(context, actor, query.unitId)
  const key = fromCursor(query.after, ['text', 'text'])
  const { items, majors } = await readMeasureFindings(context.db, toFilter(query, unitId))
  const rest = items.filter(
    ({ standard, measure }) => !key || standard > key[0]! || (standard === key[0] && measure > key[1]!),
  )
  const page = toPage(
    rest,
    query.limit,
    ({ standard, measure }) => [standard, measure],
    (item) => item,
  )
  return { ...page, majors }
}

/** Attempts and passes of each sponsor's candidates, by name. */
export async function getSponsorFindings(
  context: Context,
  actor: Actor,
  query: FindingsQuery,
): Promise<SponsorFindings> {
  const { unitId, sponsorIds } = await findingsView(context, actor, query.unitId)
  const key = fromCursor(query.after, ['text', 'uuid'])
  const page = { limit: query.limit + 1, after: key && { name: String(key[0]), id: String(key[1]) } }
  const day = await today(context, unitId)
  const rows = await readSponsorFindings(context.db, toFilter(query, unitId), sponsorIds, day, page)
  return toPage(
    rows,
    query.limit,
    ({ name, sponsorId }) => [name, sponsorId],
    (sponsor) => sponsor,
  )
}

function toFilter(query: FindingsQuery, unitId: string | undefined): FindingsFilter {
  const { standard, from = null, to = null, attempts, arm } = query
  if (from !== null && to !== null && from > to) {
    throw invalid('period-upside-down', 'to', 'The period ends before it begins: mend from or to.')
  }
  return { standard, unitId, arm, kind: attempts === 'all' ? undefined : attempts, periods: coverPeriod(from, to) }
}
