import type { Context } from '../../context/context.ts'
import { modelOrBaseline } from '../../domain/ability/model-or-baseline.ts'
import { countTests } from '../db/histories.db.ts'
import { readKindScores, readPastForecasts } from '../db/past-forecasts.db.ts'

/**
 * The chances of tests as they stood before: what would have been said of each the day before it, by the model or, where that had done
 * no better by the earlier day, by the unit's pass rate in that kind of attempt. A test of which nothing was said (one that was
 * missed, or not looked at yet) has the unit's pass rate in the standard.
 * In: tests of a time after a day, and that day. Out: by test.
 */
export async function findChancesThen(
  context: Pick<Context, 'db' | 'catalogue'>,
  tests: readonly { readonly id: string; readonly standard: string }[],
  day: string,
): Promise<Map<string, number>> {
  const { standards } = await context.catalogue.current(context.db)
  const stored = await readPastForecasts(
    context.db,
    tests.map(({ id }) => id),
  )
  const found = new Map<string, number>()
  for (const standard of new Set(tests.map((test) => test.standard))) {
    const standardId = standards.get(standard)![0]!.standardId
    const [scores, { tests: taken, passes }] = await Promise.all([
      readKindScores(context.db, [standardId], day),
      countTests(context.db, standardId, day),
    ])
    for (const { id } of tests.filter((test) => test.standard === standard)) {
      const said = stored.get(id)
      const basis = said && modelOrBaseline(scores.find(({ kind }) => kind === said.kind))
      found.set(id, said ? (basis === 'model' ? said.forecast : said.byKind) : (passes + 1) / (taken + 2))
    }
  }
  return found
}
