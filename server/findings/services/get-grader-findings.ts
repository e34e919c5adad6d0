import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { FindingsQuery } from '../../contract/findings/findings.ts'
import type { GraderFindings } from '../../contract/findings/graders.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { readNames } from '../db/findings-people.db.ts'
import { findingsQuestion } from './findings-question.ts'
import { gatherCredits } from './gather-credits.ts'
import { getBasis } from './get-basis.ts'
import { pageOfList } from './page-of-list.ts'
import { toExpectation } from './to-expectation.ts'
import { rateOf } from './to-rate.ts'

/** GO of each grader, by name, against what the unit's own rates would give for the same kinds of attempts. */
export async function getGraderFindings(context: Context, actor: Actor, query: FindingsQuery): Promise<GraderFindings> {
  const { filter, view } = await findingsQuestion(context, actor, query)
  const [{ unit, people }, basis, day] = await Promise.all([
    gatherCredits(context, filter, 'grader'),
    getBasis(context, filter),
    today(context, view.unitId),
  ])
  const named = view.sponsorIds
  const shown = people.filter(({ soldierId }) => named === null || named.includes(soldierId))
  const credits = new Map(shown.map((credit) => [credit.soldierId, credit]))
  const names = await readNames(context.db, [...credits.keys()], day)
  const page = pageOfList(names, query, ({ name, id }) => [name, id], ['text', 'uuid'])
  const items = page.items.map(({ id, name, grade }) => {
    const { all, strata } = credits.get(id)!
    return {
      graderId: id,
      name,
      grade,
      attempts: all.n,
      passes: all.count,
      rate: rateOf(all),
      ...toExpectation(strata),
    }
  })
  return { items, next: page.next, unit: rateOf(unit.all), basis }
}
