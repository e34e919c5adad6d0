import type { PlanProblem, SquaresLevel } from '../problem.ts'
import { MinCostFlow } from '../relaxation/min-cost-flow.ts'

/** A problem by numbers: pairs, wanted and places by their place in the lists. */
export interface Numbers {
  readonly wanted: Int32Array
  readonly place: Int32Array
  readonly wantedCount: number
  readonly placeCount: number
  /** Levels of a cost, the order of ties among them as the last. */
  readonly width: number
  /** Pair after pair, `width` numbers each, least is best; that of squares stays 0. */
  readonly costs: Float64Array
  /** The level of squares, and by pair its group there; −1: none. */
  readonly squares: number
  readonly group: Int32Array
  readonly bases: readonly number[]
  /** The pairs of the first set of `atMost` that these break; null: none. */
  broken(pairs: readonly number[]): number[] | null
  /** Whether a pair breaks a set together with those taken. */
  clashes(taken: ReadonlySet<number>, pair: number): boolean
}

export function numbersOf(problem: PlanProblem): Numbers {
  const { pairs, levels } = problem
  const byId = new Map(pairs.map(({ id }, at) => [id, at]))
  const wantedAt = new Map(problem.wanted.map(({ id }, at) => [id, at]))
  const placeAt = new Map(problem.places.map(({ id }, at) => [id, at]))
  const width = levels.length + 1
  const costs = new Float64Array(pairs.length * width)
  const group = new Int32Array(pairs.length).fill(-1)
  const squares = levels.findIndex((level) => 'squares' in level)
  const groups = squares < 0 ? [] : (levels[squares] as SquaresLevel).squares
  levels.forEach((level, at) => {
    if (!('terms' in level)) return
    const sign = level.sense === 'max' ? -1 : 1
    for (const [id, coefficient] of level.terms) costs[byId.get(id)! * width + at]! += sign * coefficient
  })
  groups.forEach(({ pairs: own }, at) => {
    for (const id of own) group[byId.get(id)!] = at
  })
  const sets = problem.atMost.map(({ pairs: own, max }) => ({ max, pairs: own.map((id) => byId.get(id)!) }))
  const setsOf = new Map<number, number[]>()
  for (const [at, set] of sets.entries()) {
    for (const pair of set.pairs) setsOf.set(pair, [...(setsOf.get(pair) ?? []), at])
  }
  return {
    wanted: Int32Array.from(pairs, ({ wanted }) => wantedAt.get(wanted)!),
    place: Int32Array.from(pairs, ({ place }) => placeAt.get(place)!),
    wantedCount: problem.wanted.length,
    placeCount: problem.places.length,
    width,
    costs,
    squares,
    group,
    bases: groups.map(({ base }) => base),
    broken(some) {
      if (sets.length === 0) return null
      const taken = new Set(some)
      for (const set of sets) {
        const together = set.pairs.filter((pair) => taken.has(pair))
        if (together.length > set.max) return together
      }
      return null
    },
    clashes: (taken, pair) =>
      (setsOf.get(pair) ?? []).some((at) => sets[at]!.pairs.filter((one) => taken.has(one)).length >= sets[at]!.max),
  }
}

/** Posts that take the same places at the same costs: the pairs of the first, by place, and all of them. */
interface PostClass {
  readonly pairs: readonly number[]
  readonly members: (readonly number[])[]
}

/** The assignment of least cost of some pairs (in order), the sets of `atMost` left out of account. */
export function leastCost(numbers: Numbers, pairs: readonly number[]): number[] {
  const { width, placeCount, costs, bases } = numbers
  const classes = classesOf(numbers, pairs)
  const levels = levelsThatDiffer(numbers, pairs)
  const arcs = new Arcs(levels.length + 1)
  const [firstPlace, firstGroup] = [classes.length, classes.length + placeCount]
  const end = firstGroup + bases.length
  const arcPairs: { at: number; place: number }[] = []
  classes.forEach((own, at) => {
    own.pairs.forEach((pair, nth) => {
      const cost = arcs.add(at, firstPlace + numbers.place[pair]!, 1)
      levels.forEach((level, word) => {
        cost(word, costs[pair * width + level]!)
      })
      // Ties: the first of what is wanted gets the first places.
      cost(levels.length, (classes.length - at) * nth)
      arcPairs.push({ at, place: nth })
    })
  })
  classes.forEach((own, at) => {
    arcs.add(at, end, own.members.length)
  })
  addPlaces(numbers, pairs, arcs, { firstPlace, firstGroup, end })
  const network = new MinCostFlow({ nodes: end + 1, ...arcs.asNetwork() })
  classes.forEach((own, at) => {
    for (let nth = 0; nth < own.members.length; nth++) network.send(at, end)
  })
  const got = classes.map(() => 0)
  return network
    .arcsUsed()
    .filter((arc) => arc < arcPairs.length)
    .map((arc) => {
      const { at, place } = arcPairs[arc]!
      return classes[at]!.members[got[at]!++]![place]!
    })
    .sort((a, b) => a - b)

  /* The way on from a place: to its soldier, each ceremony more costing more (2 base + 1, 2 base + 3, …), or to the end. */
  function addPlaces(
    { place, group, squares }: Numbers,
    own: readonly number[],
    into: Arcs,
    at: { firstPlace: number; firstGroup: number; end: number },
  ): void {
    const joined = new Set<number>()
    const uses = new Map<number, number>()
    const word = levels.indexOf(squares)
    for (const pair of own) {
      if (joined.has(place[pair]!)) continue
      joined.add(place[pair]!)
      const of = group[pair]!
      if (of >= 0) uses.set(of, (uses.get(of) ?? 0) + 1)
      into.add(at.firstPlace + place[pair]!, of < 0 ? at.end : at.firstGroup + of, 1)
    }
    for (const [of, most] of uses) {
      for (let nth = 0; nth < most; nth++) into.add(at.firstGroup + of, at.end, 1)(word, 2 * (bases[of]! + nth) + 1)
    }
  }
}

/** Levels in which pairs cost something; the others decide nothing. */
function levelsThatDiffer({ width, costs, squares, group }: Numbers, pairs: readonly number[]): number[] {
  return Array.from({ length: width - 1 }, (_, level) => level).filter((level) =>
    pairs.some((pair) => (level === squares ? group[pair]! >= 0 : costs[pair * width + level] !== 0)),
  )
}

function classesOf({ wanted, place, costs, width }: Numbers, pairs: readonly number[]): PostClass[] {
  const own = new Map<number, number[]>()
  for (const pair of pairs) {
    const list = own.get(wanted[pair]!)
    if (list) list.push(pair)
    else own.set(wanted[pair]!, [pair])
  }
  const isSame = (one: readonly number[], other: readonly number[]): boolean =>
    one.length === other.length &&
    one.every((pair, at) => {
      if (place[pair] !== place[other[at]!]) return false
      for (let level = 0; level < width; level++) {
        if (costs[pair * width + level] !== costs[other[at]! * width + level]) return false
      }
      return true
    })
  const classes: PostClass[] = []
  for (const list of [...own].sort(([a], [b]) => a - b).map(([, each]) => each)) {
    const same = classes.find((one) => isSame(one.pairs, list))
    if (same) same.members.push(list)
    else classes.push({ pairs: list, members: [list] })
  }
  return classes
}

/** Arcs in flat lists. */
class Arcs {
  readonly #width: number
  readonly #from: number[] = []
  readonly #to: number[] = []
  readonly #capacity: number[] = []
  readonly #costs: number[] = []

  constructor(width: number) {
    this.#width = width
  }

  /** Adds an arc that costs nothing. Out: a way to set its costs, by level. */
  add(from: number, to: number, capacity: number): (level: number, cost: number) => void {
    const at = this.#from.length * this.#width
    this.#from.push(from)
    this.#to.push(to)
    this.#capacity.push(capacity)
    for (let level = 0; level < this.#width; level++) this.#costs.push(0)
    return (level, cost) => {
      this.#costs[at + level] = cost
    }
  }

  asNetwork() {
    return {
      width: this.#width,
      from: Int32Array.from(this.#from),
      to: Int32Array.from(this.#to),
      capacity: Int32Array.from(this.#capacity),
      costs: Float64Array.from(this.#costs),
    }
  }
}
