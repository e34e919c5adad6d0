import type { Context } from '../../context/context.ts'
import type { WhatIfQuery } from '../../contract/readiness-forecast/readiness-forecast.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { PlannedTest, Supposed } from '../../domain/readiness-forecast/suppose-tests.ts'
import { invalid } from '../../errors.ts'
import { getAnswer, getProblem } from '../../plans/services/get-plan.ts'

interface Asked {
  /** Of the certification. */
  readonly standards: readonly string[]
  /** The day the answer is of. */
  readonly on: string
}

/** What a question supposes. */
export async function supposedBy(
  context: Context,
  actor: Actor,
  query: WhatIfQuery,
  { standards, on }: Asked,
): Promise<Supposed> {
  const more = listOf(query.more).map((text) => {
    const [day = '', standard = '', slots = ''] = text.split('/')
    return { day, standard, slots: Number(slots) }
  })
  if (more.some(({ day, standard }) => day > on || !standards.includes(standard))) {
    const detail =
      'A test more must be of a standard that the certification requires, and not after the day asked about.'
    throw invalid('no-such-test', 'more', detail)
  }
  const fewer = listOf(query.fewer).map((text) => {
    const [testDayId = '', slots = ''] = text.split('/')
    return { testDayId, slots: Number(slots) }
  })
  const planned = query.plan === undefined ? [] : await plannedBy(context, actor, query.plan, { standards, on })
  return { more, fewer, away: listOf(query.away), planned }
}

const listOf = (text: string | undefined): string[] => (text ?? '').split(',').filter(Boolean)

/** What a retest plan would book of these standards. */
async function plannedBy(
  context: Context,
  actor: Actor,
  planId: string,
  { standards, on }: Asked,
): Promise<PlannedTest[]> {
  const problem = await getProblem(context, actor, planId)
  if (problem.kind !== 'retests') throw invalid('no-retest-plan', 'plan', 'Only a retest plan books tests.')
  const { pairs } = await getAnswer(context, actor, planId)
  const chosen = new Set(pairs)
  const tests = new Map(problem.wanted.map((one) => [one.id, one]))
  const slots = new Map(problem.places.map((one) => [one.id, one]))
  return problem.pairs.flatMap(({ id, wanted, place }): PlannedTest[] => {
    const { candidateId, standard, bookingId } = tests.get(wanted)!
    if (!chosen.has(id) || !standards.includes(String(standard))) return []
    const { testDayId, graderId, day, startsAt } = slots.get(place)!
    const test = {
      id: `planned ${id}`,
      testDayId: String(testDayId),
      graderId: graderId === null ? null : String(graderId),
      standard: String(standard),
      day: String(day),
      at: Date.parse(String(startsAt)),
    }
    const movedId = bookingId === null ? null : String(bookingId)
    return [{ soldierId: String(candidateId), movedId, test: test.day <= on ? test : null }]
  })
}
