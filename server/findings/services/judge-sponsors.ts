import { listFittedSeverities } from '../../ability/db/fits.db.ts'
import type { Context } from '../../context/context.ts'
import type { CoachedGroup } from '../../domain/statistics/passes/coached-passes.ts'
import { fitPasses, type Passed } from '../../domain/statistics/passes/fit-passes.ts'
import { type JudgedCoaching, judgeCoaching } from '../../domain/statistics/passes/judge-coaching.ts'
import { readCoached } from '../db/findings-coached.db.ts'
import type { FindingsQueryInScope } from './findings-query.ts'

/** The one verdict on each sponsor of a question, by sponsor; over all of them, whoever may be named. */
export async function judgeSponsors(
  context: Context,
  { filter, standards }: FindingsQueryInScope,
): Promise<Map<string, JudgedCoaching>> {
  const severities = await listFittedSeverities(context.db, standards)
  const rows = await readCoached(context.db, filter, severities)
  const places = new Map<string, number>()
  const inOrder = [...rows.strata].sort((a, b) => a.code - b.code)
  const strata = inOrder.map(({ standard, arm, kind, severity }) => {
    const test = JSON.stringify([standard, arm])
    if (!places.has(test)) places.set(test, places.size)
    return { place: places.get(test)!, kind, severity: severity / 10 }
  })
  const model = fitPasses(
    strata,
    rows.candidates.map(({ attempts, count }) => ({ attempts: attempts.map(toPassed), count })),
  )
  const bySponsor = new Map<string, CoachedGroup[]>()
  for (const { sponsorId, before, own, count } of rows.coached) {
    const groups = bySponsor.get(sponsorId) ?? []
    bySponsor.set(sponsorId, groups)
    groups.push({ before: before.map(toPassed), own: own.map(toPassed), count })
  }
  const judged = judgeCoaching(model, [...bySponsor.values()])
  return new Map([...bySponsor.keys()].map((sponsorId, i) => [sponsorId, judged[i]!]))
}

const toPassed = (mark: number): Passed => [mark >> 1, (mark & 1) as 0 | 1]
