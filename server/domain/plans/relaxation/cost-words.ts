import type { LinearLevel } from '../problem.ts'

/** Costs of pairs, least is best, several levels in one: compared word by word. */
export interface CostWords {
  /** How many words a cost has. */
  readonly width: number
  /** Pair after pair, `width` words each. */
  readonly words: Float64Array
  /** The first words, which hold all levels; those after them hold only the order of ties. */
  readonly levelWords: number
}

/** Sums of so many are exact, also along a path through all of them and back. */
const LARGEST_WORD = 2 ** 48
const FINEST = 1e6

/**
 * Costs of pairs that order answers as the levels do, one after the other, and then as the lists do: what is wanted first
 * is placed, and in the first places. Each level is made whole numbers and written as digits of a base that no two answers differ by.
 * In: levels of sums, the pairs by their places in the lists. Coefficients finer than a millionth are rounded.
 */
export function costWords(
  levels: readonly LinearLevel[],
  pairs: readonly { readonly id: string; readonly wanted: number; readonly place: number }[],
  wantedCount: number,
): CostWords {
  const ofLevels = packed(
    levels.map((level) => wholeCosts(level, pairs)),
    pairs,
    wantedCount,
  )
  const placeCount = pairs.reduce((most, { place }) => Math.max(most, place + 1), 0)
  const tie = Float64Array.from(pairs, ({ wanted, place }) => -(wantedCount - wanted) * (placeCount - place))
  const columns = [...ofLevels, tie]
  const words = new Float64Array(pairs.length * columns.length)
  for (let word = 0; word < columns.length; word++) {
    for (let pair = 0; pair < pairs.length; pair++) words[pair * columns.length + word] = columns[word]![pair]!
  }
  return { width: columns.length, words, levelWords: ofLevels.length }
}

function wholeCosts({ sense, terms }: LinearLevel, pairs: readonly { readonly id: string }[]): Float64Array {
  const coefficients = new Map<string, number>()
  for (const [pair, coefficient] of terms) coefficients.set(pair, (coefficients.get(pair) ?? 0) + coefficient)
  const scale = scaleOf(coefficients.values())
  const sign = sense === 'max' ? -1 : 1
  return Float64Array.from(pairs, ({ id }) => sign * Math.round((coefficients.get(id) ?? 0) * scale))
}

/** The least power of ten that makes all of them whole. */
function scaleOf(values: Iterable<number>): number {
  let scale = 1
  for (const value of values) {
    while (scale < FINEST && Math.abs(value * scale - Math.round(value * scale)) > 1e-9 * scale) scale *= 10
  }
  return scale
}

/** Levels joined into as few words as hold them. */
function packed(
  levels: readonly Float64Array[],
  pairs: readonly { readonly wanted: number }[],
  wantedCount: number,
): Float64Array[] {
  const words: { costs: Float64Array; spread: number }[] = []
  for (const costs of levels) {
    const spread = spreadOf(costs, pairs, wantedCount)
    const last = words.at(-1)
    const base = 2 * spread + 1
    if (last && (2 * last.spread + 1) * base < LARGEST_WORD) {
      last.costs = last.costs.map((cost, pair) => cost * base + costs[pair]!)
      last.spread = last.spread * base + spread
    } else words.push({ costs, spread })
  }
  return words.map(({ costs }) => costs)
}

/** No two answers differ by more: each wanted thing adds one of its costs, or nothing. */
function spreadOf(costs: Float64Array, pairs: readonly { readonly wanted: number }[], wantedCount: number): number {
  const least = new Float64Array(wantedCount)
  const most = new Float64Array(wantedCount)
  for (let pair = 0; pair < pairs.length; pair++) {
    const { wanted } = pairs[pair]!
    least[wanted] = Math.min(least[wanted]!, costs[pair]!)
    most[wanted] = Math.max(most[wanted]!, costs[pair]!)
  }
  return most.reduce((sum, each, wanted) => sum + each - least[wanted]!, 0)
}
