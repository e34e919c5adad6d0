import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { FindingsQuery, SponsorFindings } from '../../contract/findings/findings.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { readCoachingDays } from '../db/findings-coaching.db.ts'
import { readNames } from '../db/findings-people.db.ts'
import { findingsQuery } from './findings-query.ts'
import { gatherCredits } from './gather-credits.ts'
import { judgeSponsors } from './judge-sponsors.ts'
import { pageOfList } from './page-of-list.ts'
import { rateOf } from './to-rate.ts'

/**
 * Attempts and passes of each sponsor's candidates, by name, with one verdict: whether they came out otherwise than such
 * candidates do with sponsors at large. Everybody is judged together, also where only some may be named.
 */
export async function getSponsorFindings(
  context: Context,
  actor: Actor,
  query: FindingsQuery,
): Promise<SponsorFindings> {
  const question = await findingsQuery(context, actor, query)
  const { filter, view } = question
  const [{ people }, judged, day] = await Promise.all([
    gatherCredits(context, filter, 'sponsor'),
    judgeSponsors(context, question),
    today(context, view.unitId),
  ])
  const named = view.sponsorIds
  // A sponsor whose first sheet came in between the two questions is in the next answer.
  const shown = people.filter(({ soldierId }) => judged.has(soldierId) && (named === null || named.includes(soldierId)))
  const names = await readNames(
    context.db,
    shown.map(({ soldierId }) => soldierId),
    day,
  )
  const page = pageOfList(names, query, ({ name, id }) => [name, id], ['text', 'uuid'])
  const period = { unitId: view.unitId, from: filter.from, to: filter.to !== null && filter.to < day ? filter.to : day }
  const ids = page.items.map(({ id }) => id)
  const coaching = new Map((await readCoachingDays(context.db, ids, period)).map((one) => [one.sponsorId, one]))
  const credits = new Map(shown.map((credit) => [credit.soldierId, credit]))
  const items = page.items.map(({ id, name, grade }) => {
    const { all, first } = credits.get(id)!
    const { expected, estimate, p, adjustedP, differs } = judged.get(id)!
    return {
      sponsorId: id,
      name,
      grade,
      attempts: all.n,
      passes: all.count,
      firstAttempts: first.n,
      firstPasses: first.count,
      rate: rateOf(all),
      expected,
      estimate,
      p,
      adjustedP,
      differs,
      daysCoached: coaching.get(id)?.days ?? 0,
      candidates: coaching.get(id)?.candidates ?? 0,
    }
  })
  return { items, next: page.next }
}
