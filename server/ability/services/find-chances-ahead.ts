import { createHash } from 'node:crypto'
import { setImmediate } from 'node:timers/promises'
import type { Context } from '../../context/context.ts'
import type { AttemptKind } from '../../domain/ability/attempt-kind.ts'
import type { CandidateHistory } from '../../domain/ability/candidate-history.ts'
import { type ChancesAhead, chancesAhead } from '../../domain/ability/chances-ahead.ts'
import { modelOrBaseline } from '../../domain/ability/model-or-baseline.ts'
import { readHistoriesOf } from '../db/histories.db.ts'
import { type ForecastGround, readForecastGrounds } from './forecast-ground.ts'

/** Who is to be tested in a standard, and how often at most. */
interface AskedChances {
  readonly candidateId: string
  readonly standard: string
  readonly tests: number
}

/** By candidate and standard; null: no version of the standard is in force. */
type FoundChances = (candidateId: string, standard: string) => ChancesAhead | null

/**
 * What was worked out lately, by all it rests on, so that it is never out of date. A candidate costs some milliseconds; a unit is
 * looked at again and again.
 */
const kept = new Map<string, ChancesAhead>()
const MOST_KEPT = 4_000
/** After so many candidates other requests get their turn. */
const AT_A_STRETCH = 10

/** The chances to pass of many candidates, from what is known today. */
export async function findChancesAhead(
  context: Context,
  asked: readonly AskedChances[],
  today: string,
): Promise<FoundChances> {
  const catalogue = await context.catalogue.current(context.db)
  const standards = new Set(asked.map(({ standard }) => standard))
  const grounds = await readForecastGrounds(context, catalogue, standards, { asOf: today, isPast: false })
  const tests = new Map<string, number>()
  const people = asked.flatMap(({ candidateId, standard, tests: count }) => {
    const standardId = grounds.get(standard)?.standardId
    if (standardId === undefined) return []
    const key = `${candidateId} ${standardId}`
    tests.set(key, Math.max(count, tests.get(key) ?? 1))
    return [{ candidateId, standardId }]
  })
  const byId = new Map([...grounds.values()].map((ground) => [ground.standardId, ground]))
  const found = new Map<string, ChancesAhead>()
  const histories = people.length === 0 ? [] : await readHistoriesOf(context.db, people)
  for (const [at, { standardId, ...history }] of histories.entries()) {
    const ground = byId.get(standardId)!
    const key = `${history.candidateId} ${standardId}`
    found.set(`${history.candidateId} ${ground.standard}`, ofCandidate(ground, history, tests.get(key)!, today))
    if (at % AT_A_STRETCH === AT_A_STRETCH - 1) await setImmediate()
  }
  return (candidateId, standard) => found.get(`${candidateId} ${standard}`) ?? null
}

function ofCandidate(ground: ForecastGround, history: CandidateHistory, tests: number, today: string): ChancesAhead {
  const { layout, known, version, scores, print } = ground
  const text = JSON.stringify([print, today, tests, history])
  const key = createHash('sha256').update(text).digest('base64')
  const basisOf = (kind: AttemptKind) => modelOrBaseline(scores.find((score) => score.kind === kind))
  const chances = kept.get(key) ?? chancesAhead(layout, known.fit, history, today, version, { tests, basisOf })
  // What was asked for last is kept longest.
  kept.delete(key)
  kept.set(key, chances)
  if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!)
  return chances
}
