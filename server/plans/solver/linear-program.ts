import type { Level, PlanProblem } from '../../domain/plans/problem.ts'

/** A level solved already, which later ones may not make worse. */
export interface Held {
  readonly level: Level
  readonly value: number
}

/** Half a unit of the last digit that counts. */
const SLACK = 1e-6

/**
 * The text of a linear program in the CPLEX LP layout for one level of a problem: a binary `x` for each pair, by its place
 * in the list. A sum of squares is written with steps `u` of a group, each dearer than the one before:
 * (b + n)² = b² + (2b + 1) + (2b + 3) + … In: the levels before, at the values they reached.
 */
export function linearProgram(problem: PlanProblem, level: Level, held: readonly Held[]): string {
  const columnOf = new Map(problem.pairs.map(({ id }, at) => [id, `x${at}`]))
  const levels = [...held.map((one) => one.level), level]
  const costs = levels.map((one, at) => costsOf(one, at, columnOf))
  const goal = costs.at(-1)!
  const rows = [
    ...atMostRows(problem, columnOf),
    ...costs.flatMap(({ groups }) => groups),
    ...held.map(({ level: one, value }, at) => {
      const isMax = one.sense === 'max'
      const rest = value - costs[at]!.constant
      return `${sumOf(costs[at]!.terms)} ${isMax ? '>=' : '<='} ${rest + (isMax ? -SLACK : SLACK)}`
    }),
  ].filter((row) => !row.startsWith('0 x0 '))
  return [
    level.sense === 'max' ? 'Maximize' : 'Minimize',
    ` goal: ${sumOf(goal.terms)}`,
    'Subject To',
    ...rows.map((row, at) => ` r${at}: ${row}`),
    'Bounds',
    ...costs.flatMap(({ steps }) => steps).map((step) => ` 0 <= ${step} <= 1`),
    'Binary',
    ` ${[...columnOf.values()].join('\n ')}`,
    'End',
  ].join('\n')
}

type Term = readonly [column: string, coefficient: number]

interface Costs {
  readonly constant: number
  readonly terms: readonly Term[]
  /** Rows that count the pairs of each group in steps. */
  readonly groups: readonly string[]
  readonly steps: readonly string[]
}

function costsOf(level: Level, at: number, columnOf: ReadonlyMap<string, string>): Costs {
  if ('terms' in level) {
    const terms = level.terms.map(([pair, coefficient]): Term => [columnOf.get(pair)!, coefficient])
    return { constant: level.constant, terms, groups: [], steps: [] }
  }
  const groups = level.squares.map(({ base, pairs }, group) => ({
    base,
    columns: pairs.map((pair) => columnOf.get(pair)!),
    steps: pairs.map((_, step) => `u${at}_${group}_${step}`),
  }))
  return {
    constant: groups.reduce((sum, { base }) => sum + base * base, 0),
    terms: groups.flatMap(({ base, steps }) => steps.map((step, n): Term => [step, 2 * (base + n) + 1])),
    groups: groups
      .filter(({ columns }) => columns.length > 0)
      .map(
        ({ columns, steps }) =>
          `${columns.map((each) => `+ ${each}`).join('\n ')} ${steps.map((each) => `- ${each}`).join('\n ')} = 0`,
      ),
    steps: groups.flatMap(({ steps }) => steps),
  }
}

function atMostRows({ pairs, wanted, places, atMost }: PlanProblem, columnOf: ReadonlyMap<string, string>): string[] {
  const columns = (ids: readonly { readonly id: string }[], of: 'wanted' | 'place') => {
    const byId = new Map(ids.map(({ id }) => [id, [] as string[]]))
    for (const pair of pairs) byId.get(pair[of])!.push(columnOf.get(pair.id)!)
    return [...byId.values()].map((list) => ({ list, max: 1 }))
  }
  const sets = [
    ...columns(wanted, 'wanted'),
    ...columns(places, 'place'),
    ...atMost.map(({ pairs: set, max }) => ({ max, list: set.map((pair) => columnOf.get(pair)!) })),
  ]
  return sets
    .filter(({ list, max }) => list.length > max)
    .map(({ list, max }) => `${list.map((each) => `+ ${each}`).join('\n ')} <= ${max}`)
}

const sumOf = (terms: readonly Term[]): string =>
  terms.length === 0
    ? '0 x0'
    : terms
        .map(([column, coefficient]) => `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} ${column}`)
        .join('\n ')
