import type { Level, PlanProblem } from './problem.ts'

export interface Verdict {
  /** What the answer breaks, a sentence each; empty: it can be done. */
  readonly broken: readonly string[]
  /** The value of each level, in their order. */
  readonly values: readonly number[]
}

/**
 * Whether an answer can be done, and what each level comes to: read off the definition of the problem, with nothing of the
 * solver in it. In: any list of ids of pairs.
 */
export function judgeAnswer(problem: PlanProblem, answer: readonly string[]): Verdict {
  const taken = new Set(answer)
  const pairs = new Map(problem.pairs.map((pair) => [pair.id, pair]))
  const known = [...taken].flatMap((id) => pairs.get(id) ?? [])
  const broken = [
    ...repeated(answer).map((id) => `Pair ${id} is named more than once.`),
    ...[...taken].filter((id) => !pairs.has(id)).map((id) => `There is no pair ${id}.`),
    ...repeated(known.map(({ wanted }) => wanted)).map((id) => `Wanted ${id} is placed more than once.`),
    ...repeated(known.map(({ place }) => place)).map((id) => `Place ${id} is given more than once.`),
    ...problem.atMost.flatMap(({ pairs: set, max }, at) => {
      const count = set.filter((id) => taken.has(id)).length
      return count > max ? [`Of set ${at + 1} in atMost ${count} pairs are taken; it allows ${max}.`] : []
    }),
  ]
  return { broken, values: problem.levels.map((level) => levelValue(level, taken)) }
}

function levelValue(level: Level, taken: ReadonlySet<string>): number {
  if ('squares' in level) {
    const loads = level.squares.map(({ base, pairs }) => base + pairs.filter((id) => taken.has(id)).length)
    return loads.reduce((sum, load) => sum + load * load, 0)
  }
  return level.terms.reduce((sum, [pair, coefficient]) => (taken.has(pair) ? sum + coefficient : sum), level.constant)
}

const repeated = (ids: readonly string[]): string[] => [...new Set(ids.filter((id, at) => ids.indexOf(id) < at))]
