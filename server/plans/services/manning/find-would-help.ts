import { findChancesAhead } from '../../../ability/services/find-chances-ahead.ts'
import type { CeremonyRow } from '../../../ceremonies/db/ceremonies.db.ts'
import { listOpenTestDays, type OutlookRow } from '../../../ceremonies/db/outlook.db.ts'
import { occasionOf } from '../../../ceremonies/services/manning/judge-ceremony.ts'
import { wayOf } from '../../../ceremonies/services/manning/outlook-of.ts'
import type { Context } from '../../../context/context.ts'
import type { ManningProposal } from '../../../contract/plans/manning.ts'
import type { Scope } from '../../../domain/access/scope.ts'
import type { WhyNot } from '../../../domain/manning/types.ts'
import type { TestAhead } from '../../../domain/manning/way-to-certified.ts'
import { whyNot } from '../../../domain/manning/why-not.ts'
import { byRosterNumber, somebody } from './somebody.ts'

type WouldHelp = ManningProposal['short'][number]['wouldHelp'][number]

interface Helper {
  readonly row: OutlookRow
  readonly by: WouldHelp['by']
  readonly until: string
  readonly way: readonly TestAhead[]
}

/** So many are shown for a set of posts. */
const MOST_SHOWN = 8

/**
 * For each set of posts that is short, who would end it: kept away from one of them by the want of a certification alone that they could
 * still earn in time, or by an absence or another duty alone. By the chance to pass; then who only has to be freed.
 */
export async function findWouldHelp(
  context: Context,
  scope: Scope,
  ceremony: CeremonyRow,
  rows: readonly OutlookRow[],
  sets: readonly (readonly string[])[],
  today: string,
): Promise<WouldHelp[][]> {
  if (sets.length === 0) return []
  const { certifications } = await context.catalogue.current(context.db)
  const [from, before, unitId] = [today, ceremony.day, ceremony.unitId]
  const open = await listOpenTestDays(context.db, scope, { unitId, from, before, now: context.clock() })
  const busy = new Set([
    ...ceremony.posts.flatMap(({ soldierId }) => soldierId ?? []),
    ...ceremony.alternates.map(({ soldierId }) => soldierId),
  ])
  const occasion = occasionOf(ceremony)
  const found = sets.map((posts) =>
    rows.flatMap((row): Helper[] => {
      if (busy.has(row.soldierId)) return []
      const reasons = ceremony.posts
        .filter(({ id, certification }) => posts.includes(id) && certification === row.certification)
        .map((post) => whyNot(post, occasion, row))
      const alone = reasons.find((each) => new Set(each.map(({ reason }) => reason)).size === 1)?.[0]
      if (!alone) return []
      if (alone.reason !== 'not certified') {
        const until = formatKept(alone)
        return until === null ? [] : [{ row, by: until.by, until: until.what, way: [] }]
      }
      const certification = certifications.find(({ code }) => code === row.certification)!
      const way = ceremony.day > today ? wayOf(row, certification, open, today, ceremony.day) : null
      return way && way.length > 0 ? [{ row, by: 'test', until: '', way }] : []
    }),
  )
  const asked = found
    .flat()
    .flatMap(({ row, way }) => way.map(({ standard }) => ({ candidateId: row.soldierId, standard, tests: 1 })))
  const chances = await findChancesAhead(context, asked, today)
  return found.map((set) =>
    set
      .map(({ row, by, until, way }): WouldHelp => {
        const tests = way.map((test) => {
          return { ...test, pass: chances(row.soldierId, test.standard)?.pass[0]?.[0] ?? 0 }
        })
        const pass = by === 'test' ? tests.reduce((product, test) => product * test.pass, 1) : null
        return { ...somebody(row), by, tests, pass, until }
      })
      .sort((a, b) => (b.pass ?? -1) - (a.pass ?? -1) || byRosterNumber(a, b))
      .slice(0, MOST_SHOWN),
  )
}

function formatKept(why: WhyNot): { by: 'absence' | 'duty'; what: string } | null {
  if (why.reason === 'absent') return { by: 'absence', what: why.kind }
  if (why.reason === 'other duty') return { by: 'duty', what: why.title ?? why.kind }
  return null
}
