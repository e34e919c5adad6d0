import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { FindingsQuery, SponsorFindings } from '../../contract/findings/findings.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { fitBetaBinomial } from '../../domain/statistics/shrinkage/fit-beta-binomial.ts'
import { readCoachingDays } from '../db/findings-coaching.db.ts'
import { readNames } from '../db/findings-people.db.ts'
import { findingsQuestion } from './findings-question.ts'
import { gatherCredits } from './gather-credits.ts'
import { judgeCredit } from './judge-credit.ts'
import { pageOfList } from './page-of-list.ts'
import { sumCredits } from './sum-credits.ts'
import { toExpectation } from './to-expectation.ts'

/**
 * Attempts and passes of each sponsor's candidates, by name, judged against those of all sponsors, also where only some
 * may be named: as a rate, drawn toward the common one, by the limits of the funnel, and against what the unit's own rates
 * would give.
 */
export async function getSponsorFindings(
  context: Context,
  actor: Actor,
  query: FindingsQuery,
): Promise<SponsorFindings> {
  const { filter, view } = await findingsQuestion(context, actor, query)
  const [{ people }, day] = await Promise.all([gatherCredits(context, filter, 'sponsor'), today(context, view.unitId)])
  const named = view.sponsorIds
  const shown = people.filter(({ soldierId }) => named === null || named.includes(soldierId))
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
  const fits = {
    all: fitBetaBinomial(people.map(({ all }) => all)),
    first: fitBetaBinomial(people.map(({ first }) => first)),
  }
  const targets = { all: sumCredits(people, 'all'), first: sumCredits(people, 'first') }
  const items = page.items.map(({ id, name, grade }) => {
    const { all, first, strata } = credits.get(id)!
    return {
      sponsorId: id,
      name,
      grade,
      attempts: all.n,
      passes: all.count,
      firstAttempts: first.n,
      firstPasses: first.count,
      all: judgeCredit(all, targets.all, fits.all),
      first: judgeCredit(first, targets.first, fits.first),
      ...toExpectation(strata),
      daysCoached: coaching.get(id)?.days ?? 0,
      candidates: coaching.get(id)?.candidates ?? 0,
    }
  })
  return { items, next: page.next }
}
