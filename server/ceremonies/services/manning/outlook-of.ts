import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import type { Outlook, OutlookItem } from '../../../contract/ceremonies/outlooks.ts'
import type { Scope } from '../../../domain/access/scope.ts'
import { termsOn } from '../../../domain/certification/terms-on.ts'
import type { Certification } from '../../../domain/certification/types.ts'
import { fitOf } from '../../../domain/manning/fit-of.ts'
import { OUTLOOK_GROUPS, outlookGroup } from '../../../domain/manning/outlook-group.ts'
import { type OpenTestDay, wayToCertified } from '../../../domain/manning/way-to-certified.ts'
import { invalid } from '../../../errors.ts'
import type { CeremonyRow } from '../../db/ceremonies.db.ts'
import { listOpenTestDays, type OutlookRow, readOutlook } from '../../db/outlook.db.ts'
import { namedAs } from './find-post-candidates.ts'
import { occasionOf } from './judge-ceremony.ts'

/** More rows than these are of no unit whose leader knows them all. */
export const MOST_ROWS = 3000

/**
 * How the people of a unit (undefined: everybody in scope) stand with a ceremony: who is named, who else may stand at one
 * of its posts, who lapses before it, who could still be certified in time were they to pass, and who cannot and why.
 */
export async function outlookOf(
  context: Context,
  scope: Scope,
  ceremony: CeremonyRow,
  unitId: string | undefined,
): Promise<{ items: OutlookItem[]; counts: Outlook['counts'] }> {
  const today = await todayOf(context, ceremony.unitId)
  const [rows, open, { certifications }] = await Promise.all([
    readOutlook(context.db, scope, { ceremonyId: ceremony.id, unitId, today, limit: MOST_ROWS + 1 }),
    listOpenTestDays(context.db, scope, {
      unitId: ceremony.unitId,
      from: today,
      before: ceremony.day,
      now: context.clock(),
    }),
    context.catalogue.current(context.db),
  ])
  if (rows.length > MOST_ROWS) {
    throw invalid('unit-too-large', 'unitId', 'So many people make no outlook; ask for a unit further down.')
  }
  const items = rows.map((row) => {
    const certification = certifications.find(({ code }) => code === row.certification)!
    return toItem(ceremony, row, certification, open, today)
  })
  return { items, counts: countsOf(items) }
}

function countsOf(items: readonly OutlookItem[]): Outlook['counts'] {
  const codes = [...new Set(items.map(({ certification }) => certification))].sort()
  return codes.flatMap((certification) =>
    OUTLOOK_GROUPS.map((group) => {
      const count = items.filter((item) => item.certification === certification && item.group === group).length
      return { certification, group, count }
    }).filter(({ count }) => count > 0),
  )
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
  const lacks = row.status !== 'certified' && row.status !== 'suspended' && row.status !== 'awaiting approval'
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

/** The tests that would certify somebody in time for a day, if passed; null: there is no way. */
export const wayOf = (
  row: OutlookRow,
  { standards, terms }: Certification,
  open: readonly OpenTestDay[],
  today: string,
  day: string,
) => {
  const { sequence, windowDays } = termsOn(terms, today)
  return wayToCertified({ ...row, required: standards, inOrder: sequence === 'in-order', windowDays }, open, today, day)
}
