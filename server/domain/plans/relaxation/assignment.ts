import type { LinearLevel, PlanProblem } from '../problem.ts'
import { costWords } from './cost-words.ts'
import { type FlowState, MinCostFlow } from './min-cost-flow.ts'

/** A problem by numbers: pairs, wanted and places by their place in the lists. */
export interface Numbered {
  readonly pairs: readonly { readonly id: string; readonly wanted: number; readonly place: number }[]
  readonly wantedCount: number
  readonly placeCount: number
  readonly atMost: readonly { readonly pairs: readonly number[]; readonly max: number }[]
}

export function numbered(problem: PlanProblem): Numbered {
  const wanted = new Map(problem.wanted.map(({ id }, at) => [id, at]))
  const places = new Map(problem.places.map(({ id }, at) => [id, at]))
  const pairs = problem.pairs.map((one) => ({
    id: one.id,
    wanted: wanted.get(one.wanted)!,
    place: places.get(one.place)!,
  }))
  const byId = new Map(problem.pairs.map(({ id }, at) => [id, at]))
  return {
    pairs,
    wantedCount: problem.wanted.length,
    placeCount: problem.places.length,
    atMost: problem.atMost.map((set) => ({ max: set.max, pairs: set.pairs.map((id) => byId.get(id)!) })),
  }
}

/**
 * The best assignment without the sets of `atMost`, and the best after some pairs were closed: wanted → place → end, or
 * wanted → end where something is not placed. Each change is one shortest path.
 */
export class Assignment {
  readonly #numbers: Numbered
  readonly #flow: MinCostFlow
  readonly #words: Float64Array
  readonly #width: number
  readonly #levelWords: number
  readonly #end: number
  /** How often each pair was closed. */
  readonly #closed: Uint16Array

  constructor(numbers: Numbered, levels: readonly LinearLevel[]) {
    const { pairs, wantedCount, placeCount } = numbers
    const { words, width, levelWords } = costWords(levels, pairs, wantedCount)
    const end = wantedCount + placeCount
    const ways = [
      ...pairs.map(({ wanted, place }) => [wanted, wantedCount + place] as const),
      ...Array.from({ length: end }, (_, node) => [node, end] as const),
    ]
    const costs = new Float64Array(ways.length * width)
    costs.set(words)
    this.#numbers = numbers
    this.#words = words
    this.#width = width
    this.#levelWords = levelWords
    this.#end = end
    this.#closed = new Uint16Array(pairs.length)
    this.#flow = new MinCostFlow({
      nodes: end + 1,
      width,
      from: Int32Array.from(ways, ([from]) => from),
      to: Int32Array.from(ways, ([, to]) => to),
      capacity: new Int32Array(ways.length).fill(1),
      costs,
    })
  }

  /** Places all that can be. Out: false where it was told to stop before. */
  solve(shouldStop: () => boolean): boolean {
    for (let wanted = 0; wanted < this.#numbers.wantedCount; wanted++) {
      if (shouldStop()) return false
      this.#flow.send(wanted, this.#end)
    }
    return true
  }

  /** The pairs taken, in order. */
  taken(): number[] {
    return this.#flow.arcsUsed().filter((arc) => arc < this.#numbers.pairs.length)
  }

  /** What these pairs cost in all levels, without the order of ties. */
  costOf(taken: readonly number[]): number[] {
    return Array.from({ length: this.#levelWords }, (_, word) =>
      taken.reduce((sum, pair) => sum + this.#words[pair * this.#width + word]!, 0),
    )
  }

  /** Closes pairs, and finds the best without them. */
  close(pairs: readonly number[]): void {
    for (const pair of pairs) {
      const isTaken = this.#flow.flowOf(pair) > 0
      if (isTaken) this.#flow.takeOff(pair)
      this.#closed[pair]!++
      this.#flow.setClosed(pair, true)
      const { wanted, place } = this.#numbers.pairs[pair]!
      if (isTaken) this.#flow.send(wanted, this.#numbers.wantedCount + place)
    }
  }

  /** Opens pairs that were closed, and goes back to what was found before. */
  reopen(pairs: readonly number[], before: FlowState): void {
    this.#flow.restore(before)
    for (const pair of pairs) {
      this.#closed[pair]!--
      if (this.#closed[pair] === 0) this.#flow.setClosed(pair, false)
    }
  }

  save(): FlowState {
    return this.#flow.save()
  }
}
