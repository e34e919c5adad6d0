import { listFittedSeverities } from '../../ability/db/fits.db.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { FindingsQuery } from '../../contract/findings/findings.ts'
import type { GraderFindings } from '../../contract/findings/graders.ts'
import { combineSeverities, type GraderSeverity } from '../../domain/ability/grader-severity.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { signTest } from '../../domain/statistics/agreement/sign-test.ts'
import { FALSE_SHARE } from '../../domain/statistics/passes/judge-coaching.ts'
import { benjaminiHochberg } from '../../domain/statistics/proportions/benjamini-hochberg.ts'
import { FEW_ATTEMPTS } from '../../domain/statistics/proportions/few-attempts.ts'
import { type StricterOf, whoWasStricter } from '../../domain/tallies/who-was-stricter.ts'
import { readGradedTwice } from '../db/findings-graded-twice.db.ts'
import { readNames } from '../db/findings-people.db.ts'
import { readUsualCorrect } from '../db/findings-usual-correct.db.ts'
import { type FindingsQueryInScope, findingsQuery } from './findings-query.ts'
import { gatherCredits } from './gather-credits.ts'
import { getBasis } from './get-basis.ts'
import { pageOfList } from './page-of-list.ts'
import { rateOf } from './to-rate.ts'

/** How strict each grader is: severity with its interval, and who was stricter on attempts graded twice; by name. */
export async function getGraderFindings(context: Context, actor: Actor, query: FindingsQuery): Promise<GraderFindings> {
  const question = await findingsQuery(context, actor, query)
  const { filter, view, standards } = question
  const [{ unit, people }, basis, day, usualCorrect] = await Promise.all([
    gatherCredits(context, filter, 'grader'),
    getBasis(context, filter),
    today(context, view.unitId),
    readUsualCorrect(context.db, standards),
  ])
  const attempts = new Map(people.map(({ soldierId, all }) => [soldierId, all.n]))
  const [severities, twice] = await Promise.all([
    judgeSeverities(context, standards, attempts),
    judgeGradedTwice(context, question),
  ])
  const named = view.sponsorIds
  const shown = people.filter(({ soldierId }) => named === null || named.includes(soldierId))
  const credits = new Map(shown.map((credit) => [credit.soldierId, credit]))
  const names = await readNames(context.db, [...credits.keys()], day)
  const page = pageOfList(names, query, ({ name, id }) => [name, id], ['text', 'uuid'])
  const items = page.items.map(({ id, name, grade }) => {
    const { all } = credits.get(id)!
    return {
      graderId: id,
      name,
      grade,
      attempts: all.n,
      passes: all.count,
      rate: rateOf(all),
      ...toSeverity(severities.get(id), usualCorrect),
      twice: twice.get(id) ?? null,
    }
  })
  return { items, next: page.next, unit: rateOf(unit.all), usualCorrect, basis }
}

type Item = GraderFindings['items'][number]

interface JudgedSeverity {
  readonly known: GraderSeverity
  readonly adjustedP: number | null
}

/** By grader; those with enough attempts are one family. */
async function judgeSeverities(
  context: Context,
  standards: readonly string[],
  attempts: ReadonlyMap<string, number>,
): Promise<Map<string, JudgedSeverity>> {
  const parts = new Map<string, Awaited<ReturnType<typeof listFittedSeverities>>>()
  for (const part of await listFittedSeverities(context.db, standards)) {
    if (attempts.has(part.graderId)) parts.set(part.graderId, [...(parts.get(part.graderId) ?? []), part])
  }
  const known = [...parts].flatMap(([graderId, own]) => {
    const severity = combineSeverities(own)
    return severity === null ? [] : [{ graderId, severity }]
  })
  const asked = known.filter(({ graderId }) => attempts.get(graderId)! >= FEW_ATTEMPTS)
  const adjusted = benjaminiHochberg(asked.map(({ severity }) => severity.p))
  const adjustedOf = new Map(asked.map(({ graderId }, i) => [graderId, adjusted[i]!]))
  return new Map(
    known.map(({ graderId, severity }) => [graderId, { known: severity, adjustedP: adjustedOf.get(graderId) ?? null }]),
  )
}

function toSeverity(
  judged: JudgedSeverity | undefined,
  usualCorrect: number | null,
): Pick<Item, 'severity' | 'correct' | 'p' | 'adjustedP' | 'differs'> {
  if (!judged) return { severity: null, correct: null, p: null, adjustedP: null, differs: 'few' }
  const { known, adjustedP } = judged
  const correctAt = (severity: number) => 1 / (1 + Math.exp(severity - Math.log(usualCorrect! / (1 - usualCorrect!))))
  return {
    severity: { value: known.severity, low: known.low, high: known.high },
    correct:
      usualCorrect === null
        ? null
        : { rate: correctAt(known.severity), low: correctAt(known.high), high: correctAt(known.low) },
    p: known.p,
    adjustedP,
    differs: adjustedP === null ? 'few' : adjustedP > FALSE_SHARE ? 'no' : known.severity > 0 ? 'above' : 'below',
  }
}

/** By grader of attempts that another graded, too; all of them are one family. */
async function judgeGradedTwice(
  context: Context,
  { filter, ofVersion }: FindingsQueryInScope,
): Promise<Map<string, NonNullable<Item['twice']>>> {
  const attempts = (await readGradedTwice(context.db, filter)).map((rows) => {
    const sheets = rows.map(ofVersion)
    return { of: sheets[0]!.of, sheets }
  })
  const found = [...whoWasStricter(attempts)].map(([graderId, of]) => ({
    graderId,
    of,
    p: signTest(of.stricter, of.lenient),
  }))
  const adjusted = benjaminiHochberg(found.map(({ p }) => p))
  return new Map(found.map(({ graderId, of, p }, i) => [graderId, toTwice(of, p, adjusted[i]!)]))
}

const toTwice = ({ pairs, stricter, lenient }: StricterOf, p: number, adjustedP: number) => ({
  attempts: pairs,
  stricter,
  lenient,
  p,
  adjustedP,
  differs:
    adjustedP > FALSE_SHARE ? ('no' as const) : stricter > lenient ? ('stricter' as const) : ('lenient' as const),
})
