import type { Outlook, OutlookItem } from '../../contract/manning.ts'
import { type CeremonyRow, readCeremony } from '../../db/ceremonies.db.ts'
import { listOpenTestDays, type OutlookRow, readOutlook } from '../../db/post-candidates.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { termsOn } from '../../domain/certification/terms-on.ts'
import type { Certification } from '../../domain/certification/types.ts'
import { fitOf } from '../../domain/manning/fit-of.ts'
import { OUTLOOK_GROUPS, outlookGroup } from '../../domain/manning/outlook-group.ts'
import { type OpenTestDay, wayToCertified } from '../../domain/manning/way-to-certified.ts'
import { invalid, notFound } from '../../errors.ts'
import { requireUnitInScope } from '../access/require.ts'
import { scopeFor } from '../access/scope-for.ts'
import type { Context } from '../context.ts'
import { fromCursor, toCursor } from '../cursor.ts'
import { today as todayOf } from '../today.ts'
import { namedAs } from './find-post-candidates.ts'
import { occasionOf } from './judge-ceremony.ts'

/** More rows than these are nobody's platoon or company. */
const MOST_ROWS = 3000

/**
 * How the people of a unit stand with a ceremony: who is named, who else may stand at one of its posts, who lapses before
 * it, who could still be certified in time were they to pass, and who cannot and why.
 */
export async function getOutlook(
  context: Context,
  actor: Actor,
  id: string,
  query: { unitId?: string | undefined; limit: number; after?: string | undefined },
): Promise<Outlook> {
  const scope = await scopeFor(context, actor)
  const ceremony = await readCeremony(context.db, scope, id)
  if (!ceremony) throw notFound('ceremony')
  await requireUnitInScope(context, scope, query.unitId)
  const today = await todayOf(context, ceremony.unitId)
  const filter = { ceremonyId: id, unitId: query.unitId, today, limit: MOST_ROWS + 1 }
  const [rows, open, { certifications }] = await Promise.all([
    readOutlook(context.db, scope, filter),
    listOpenTestDays(context.db, today, ceremony.day, context.clock()),
    context.catalogue.current(context.db),
  ])
  if (rows.length > MOST_ROWS) {
    throw invalid('unit-too-large', 'unitId', 'So many people make no outlook; ask for a company or a platoon.')
  }
  const items = rows.map((row) => {
    const certification = certifications.find(({ code }) => code === row.certification)!
    return toItem(ceremony, row, certification, open, today)
  })
  const start = Number(fromCursor(query.after, ['number'])?.[0] ?? 0)
  const end = start + query.limit
  const counts = certifications.flatMap(({ code }) =>
    OUTLOOK_GROUPS.map((group) => ({
      certification: code,
      group,
      count: items.filter((item) => item.certification === code && item.group === group).length,
    })).filter(({ count }) => count > 0),
  )
  return {
    day: ceremony.day,
    counts,
    items: items.slice(start, end),
    next: end < items.length ? toCursor([end]) : null,
  }
}

function toItem(
  ceremony: CeremonyRow,
  row: OutlookRow,
  certification: Certification,
  open: readonly OpenTestDay[],
  today: string,
): OutlookItem {
  const posts = ceremony.posts.filter((post) => post.certification === row.certification)
  const fit = fitOf(posts, occasionOf(ceremony), () => row)
  const own = posts.find((post) => post.soldierId === row.soldierId)
  const why = own ? fitOf([own], occasionOf(ceremony), () => row).whyNot : fit.whyNot
  const isNamed = own !== undefined || ceremony.alternates.some(({ soldierId }) => soldierId === row.soldierId)
  const lacks = row.status !== 'certified' && row.status !== 'suspended'
  const way = lacks && ceremony.day > today ? wayOf(row, certification, open, today, ceremony.day) : null
  return {
    soldierId: row.soldierId,
    rosterNumber: row.rosterNumber,
    name: row.name,
    grade: row.grade!,
    unitId: row.unitId!,
    certification: row.certification,
    group: outlookGroup({
      ...row,
      isNamed: isNamed && why.length === 0,
      canStand: fit.canTake.length > 0,
      hasWay: way !== null,
    }),
    namedAs: namedAs(ceremony, row.soldierId),
    validThrough: row.validThrough,
    whyNot: why,
    way,
  }
}

const wayOf = (
  row: OutlookRow,
  { standards, terms }: Certification,
  open: readonly OpenTestDay[],
  today: string,
  day: string,
) => {
  const { sequence, windowDays } = termsOn(terms, today)
  return wayToCertified({ ...row, required: standards, inOrder: sequence === 'in-order', windowDays }, open, today, day)
}
