import { listForecasts } from '../../../ability/services/list-forecasts.ts'
import { listCeremonies } from '../../../ceremonies/db/ceremonies.db.ts'
import { readOutlook } from '../../../ceremonies/db/outlook.db.ts'
import { judgePosts, occasionOf } from '../../../ceremonies/services/manning/judge-ceremony.ts'
import type { Context } from '../../../context/context.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import type { Scope } from '../../../domain/access/scope.ts'
import { addDays } from '../../../domain/calendar/plain-date.ts'
import { whyNot } from '../../../domain/manning/why-not.ts'
import type { WantedTest } from '../../../domain/plans/retests/types.ts'

const MOST_CEREMONIES = 100
const MOST_ROWS = 5_000
const DAYS_AHEAD = 182
const MOST_FORECASTS = 100

type Need = Pick<WantedTest, 'candidateId' | 'standard'>

/**
 * For each test, whether passing it alone would let the candidate stand at a post that is short: before which day (the last
 * such ceremony), and the chance to pass. Null: none is helped, or no chance can be said.
 */
export async function findFills(
  context: Context,
  actor: Actor,
  scope: Scope,
  needs: readonly Need[],
  { from, today, unitId }: { from: string; today: string; unitId: string },
): Promise<WantedTest['fills'][]> {
  const before = await lastCeremonies(context, scope, needs, { from, today, unitId })
  const helped = needs.filter((need) => before.has(keyOf(need)))
  const chances = new Map<string, { chance: number; basis: 'model' | 'baseline' }>()
  for (let at = 0; at < helped.length; at += MOST_FORECASTS) {
    const tests = helped
      .slice(at, at + MOST_FORECASTS)
      .map(({ candidateId, standard }) => ({ soldierId: candidateId, standard }))
    const { items } = await listForecasts(context, actor, { tests })
    for (const { soldierId, standard, pass, basis } of items) {
      chances.set(`${soldierId} ${standard}`, { chance: Math.round(pass * 1000) / 1000, basis })
    }
  }
  return needs.map((need) => {
    const day = before.get(keyOf(need))
    const chance = chances.get(keyOf(need))
    return day !== undefined && chance ? { before: day, ...chance } : null
  })
}

const keyOf = ({ candidateId, standard }: Need): string => `${candidateId} ${standard}`

/** By test the last ceremony with a short post that the candidate could take, were it passed. */
async function lastCeremonies(
  context: Context,
  scope: Scope,
  needs: readonly Need[],
  { from, today, unitId }: { from: string; today: string; unitId: string },
): Promise<Map<string, string>> {
  const wanted = new Set(needs.map(keyOf))
  const last = new Map<string, string>()
  if (wanted.size === 0) return last
  const span = { from: from > today ? from : today, through: addDays(from, DAYS_AHEAD), cancelled: false }
  for (const ceremony of await listCeremonies(context.db, scope, span, { limit: MOST_CEREMONIES, after: null })) {
    const short = judgePosts(ceremony).filter(({ filled }) => !filled)
    if (short.length === 0) continue
    const filter = { ceremonyId: ceremony.id, unitId, today, limit: MOST_ROWS }
    for (const row of await readOutlook(context.db, scope, filter)) {
      const [standard, ...more] = row.missing
      if (standard === undefined || more.length > 0 || row.status === 'suspended') continue
      if (row.status === 'awaiting approval') continue
      const key = `${row.soldierId} ${standard}`
      if (!wanted.has(key)) continue
      const fits = short.some(
        (post) =>
          post.certification === row.certification &&
          whyNot(post, occasionOf(ceremony), row).every(({ reason }) => reason === 'not certified'),
      )
      if (fits && ceremony.day > (last.get(key) ?? '')) last.set(key, ceremony.day)
    }
  }
  return last
}
