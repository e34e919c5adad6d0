import highsModule from 'highs'
import { judgeAnswer } from '../../domain/plans/judge-answer.ts'
import type { PlanProblem, Solution } from '../../domain/plans/problem.ts'
import { type Held, linearProgram } from './linear-program.ts'

/** Its types say CommonJS; as a module of ECMAScript it exports the loader itself. */
const loadHighs = highsModule as unknown as (typeof highsModule)['default']

let loading: ReturnType<typeof loadHighs> | null = null

/**
 * Solves a problem level by level as a linear program in whole numbers (HiGHS), each level held for those after it, and
 * last the order of the lists. In: an answer to start from, with its bounds, and how many seconds there are.
 * Out: the best; where the time ends first, the last that was found, with what is still possible.
 */
export async function solveExactly(problem: PlanProblem, start: Solution, seconds: number): Promise<Solution> {
  loading ??= loadHighs()
  const highs = await loading
  const ends = performance.now() + seconds * 1000
  const held: Held[] = []
  let pairs = start.pairs
  let reached = 0
  for (const level of [...problem.levels, tieLevel(problem)]) {
    const left = (ends - performance.now()) / 1000
    if (left <= 0 || problem.pairs.length === 0) break
    const solved = highs.solve(linearProgram(problem, level, held), {
      time_limit: left,
      mip_rel_gap: 0,
      mip_abs_gap: 1e-7,
      output_flag: false,
    })
    if (solved.Status !== 'Optimal') break
    const taken = problem.pairs.filter((_, at) => (solved.Columns[`x${at}`]?.Primal ?? 0) > 0.5).map(({ id }) => id)
    const { broken, values } = judgeAnswer(problem, taken)
    if (broken.length > 0) throw new Error(`HiGHS answered with what cannot be: ${broken.join(' ')}`)
    pairs = taken
    if (reached === problem.levels.length) break
    held.push({ level, value: values[reached]! })
    reached++
  }
  if (reached < problem.levels.length && !isBetter(problem, pairs, start.pairs)) pairs = start.pairs
  const { values } = judgeAnswer(problem, pairs)
  const levels = problem.levels.map(({ name, sense }, at) => {
    const value = values[at]!
    const proved = start.levels[at]?.bound ?? value
    const bound = sense === 'max' ? Math.max(proved, value) : Math.min(proved, value)
    return { name, value, bound: at < reached ? value : bound }
  })
  return { pairs, levels }
}

function isBetter(problem: PlanProblem, one: readonly string[], other: readonly string[]): boolean {
  const [ours, theirs] = [judgeAnswer(problem, one).values, judgeAnswer(problem, other).values]
  const at = problem.levels.findIndex((_, level) => Math.abs(ours[level]! - theirs[level]!) > 1e-9)
  return at !== -1 && (problem.levels[at]!.sense === 'max') === ours[at]! > theirs[at]!
}

function tieLevel({ wanted, places, pairs }: PlanProblem) {
  const wantedAt = new Map(wanted.map(({ id }, at) => [id, at]))
  const placeAt = new Map(places.map(({ id }, at) => [id, at]))
  const terms = pairs.map((pair) => {
    const early = (wanted.length - wantedAt.get(pair.wanted)!) * (places.length - placeAt.get(pair.place)!)
    return [pair.id, early] as const
  })
  return { name: 'order', sense: 'max' as const, constant: 0, terms }
}
