import { NodeHeap } from './node-heap.ts'

/** Where a unit may go, at what cost. Costs have several words, compared one after the other. */
export interface Network {
  readonly nodes: number
  /** Words of a cost. */
  readonly width: number
  readonly from: Int32Array
  readonly to: Int32Array
  readonly capacity: Int32Array
  /** Arc after arc, `width` words each. Over any cycle the costs come to no less than nothing. */
  readonly costs: Float64Array
}

/** What is to be known to take up a flow again where it was: the arcs that something goes by, and how much. */
export interface FlowState {
  readonly arcs: Int32Array
  readonly units: Int32Array
  readonly potentials: Float64Array
}

/**
 * Flows of least cost, by shortest augmenting paths (Ahuja, Magnanti and Orlin, Network Flows, 1993, section 9.7): each
 * path is found with costs reduced by potentials, so that none is negative and Dijkstra's way holds. What was sent stays
 * of least cost for what was sent so far.
 */
export class MinCostFlow {
  readonly #network: Network
  /** Arc 2a is arc a of the network, 2a + 1 its way back. */
  readonly #head: Int32Array
  readonly #leaving: Int32Array
  readonly #firstLeaving: Int32Array
  readonly #isClosed: Uint8Array
  readonly #left: Int32Array
  readonly #potentials: Float64Array
  readonly #distances: Float64Array
  readonly #cameBy: Int32Array
  readonly #isSettled: Uint8Array
  readonly #heap: NodeHeap

  constructor(network: Network) {
    this.#network = network
    const arcs = network.from.length
    const { nodes, width } = network
    this.#head = new Int32Array(2 * arcs)
    this.#left = new Int32Array(2 * arcs)
    this.#isClosed = new Uint8Array(arcs)
    this.#firstLeaving = new Int32Array(nodes + 1)
    for (let arc = 0; arc < arcs; arc++) {
      this.#head[2 * arc] = network.to[arc]!
      this.#head[2 * arc + 1] = network.from[arc]!
      this.#left[2 * arc] = network.capacity[arc]!
      this.#firstLeaving[network.from[arc]! + 1]!++
      this.#firstLeaving[network.to[arc]! + 1]!++
    }
    for (let node = 0; node < nodes; node++) this.#firstLeaving[node + 1]! += this.#firstLeaving[node]!
    const next = this.#firstLeaving.slice(0, nodes)
    this.#leaving = new Int32Array(2 * arcs)
    for (let way = 0; way < 2 * arcs; way++) this.#leaving[next[this.#head[way ^ 1]!]!++] = way
    this.#distances = new Float64Array(nodes * width)
    this.#cameBy = new Int32Array(nodes)
    this.#isSettled = new Uint8Array(nodes)
    this.#heap = new NodeHeap(nodes, this.#distances, width)
    this.#potentials = this.#firstPotentials()
  }

  /** Sends one unit from one node to another along a cheapest path. Out: whether there was a path. */
  send(from: number, to: number): boolean {
    if (!this.#findPath(from, to)) return false
    for (let node = to; node !== from; ) {
      const way = this.#cameBy[node]!
      this.#left[way]!--
      this.#left[way ^ 1]!++
      node = this.#head[way ^ 1]!
    }
    return true
  }

  /** How many units go by an arc. */
  flowOf(arc: number): number {
    return this.#left[2 * arc + 1]!
  }

  /** Takes one unit off an arc, which then misses at its end and is over at its start, until it is sent again. */
  takeOff(arc: number): void {
    this.#left[2 * arc]!++
    this.#left[2 * arc + 1]!--
  }

  /** Lets nothing go by an arc, or opens it again; only where nothing goes by it. */
  setClosed(arc: number, isClosed: boolean): void {
    this.#isClosed[arc] = isClosed ? 1 : 0
  }

  save(): FlowState {
    const arcs = Int32Array.from(this.arcsUsed())
    return { arcs, units: arcs.map((arc) => this.flowOf(arc)), potentials: this.#potentials.slice() }
  }

  restore({ arcs, units, potentials }: FlowState): void {
    for (const arc of this.arcsUsed()) {
      this.#left[2 * arc] = this.#network.capacity[arc]!
      this.#left[2 * arc + 1] = 0
    }
    for (let at = 0; at < arcs.length; at++) {
      this.#left[2 * arcs[at]!]! -= units[at]!
      this.#left[2 * arcs[at]! + 1] = units[at]!
    }
    this.#potentials.set(potentials)
  }

  /** The arcs that something goes by, in their order. */
  arcsUsed(): number[] {
    const used: number[] = []
    for (let arc = 0; arc < this.#isClosed.length; arc++) if (this.flowOf(arc) > 0) used.push(arc)
    return used
  }

  /** Shortest ways to each node from anywhere, so that no arc costs less than the difference (Bellman and Ford). */
  #firstPotentials(): Float64Array {
    const { nodes, width, from, to, costs } = this.#network
    const shortest = new Float64Array(nodes * width)
    for (let changed = true; changed; ) {
      changed = false
      for (let arc = 0; arc < from.length; arc++) {
        if (this.#left[2 * arc] === 0) continue
        const tail = from[arc]! * width
        const end = to[arc]! * width
        for (let word = 0; word < width; word++) {
          const difference = shortest[tail + word]! + costs[arc * width + word]! - shortest[end + word]!
          if (difference > 0) break
          if (difference === 0) continue
          for (let each = 0; each < width; each++) {
            shortest[end + each] = shortest[tail + each]! + costs[arc * width + each]!
          }
          changed = true
          break
        }
      }
    }
    return shortest
  }

  #findPath(from: number, to: number): boolean {
    const { width } = this.#network
    const distances = this.#distances
    const potentials = this.#potentials
    const settled: number[] = []
    this.#isSettled.fill(0)
    this.#cameBy.fill(-1)
    this.#heap.clear()
    for (let word = 0; word < width; word++) distances[from * width + word] = 0
    this.#heap.raise(from)
    while (this.#heap.size > 0) {
      const node = this.#heap.take()
      if (node === to) break
      this.#isSettled[node] = 1
      settled.push(node)
      this.#lookOnFrom(node, from)
    }
    if (this.#cameBy[to] === -1) return false
    for (const node of settled) {
      for (let word = 0; word < width; word++) {
        const at = node * width + word
        potentials[at] = potentials[at]! + distances[at]! - distances[to * width + word]!
      }
    }
    return true
  }

  #lookOnFrom(node: number, start: number): void {
    const { width, costs } = this.#network
    const distances = this.#distances
    const potentials = this.#potentials
    const end = this.#firstLeaving[node + 1]!
    for (let at = this.#firstLeaving[node]!; at < end; at++) {
      const way = this.#leaving[at]!
      if (this.#left[way] === 0) continue
      const next = this.#head[way]!
      if (this.#isSettled[next] === 1 || next === start) continue
      const arc = way >> 1
      if (this.#isClosed[arc] === 1) continue
      const sign = (way & 1) === 0 ? 1 : -1
      const isNew = this.#cameBy[next] === -1
      for (let word = 0; word < width; word++) {
        const reached = this.#reached(node, next, arc, sign, word)
        const difference = isNew ? -1 : reached - distances[next * width + word]!
        if (difference > 0) break
        if (difference === 0) continue
        for (let each = word; each < width; each++) {
          distances[next * width + each] =
            distances[node * width + each]! +
            sign * costs[arc * width + each]! +
            potentials[node * width + each]! -
            potentials[next * width + each]!
        }
        this.#cameBy[next] = way
        this.#heap.raise(next)
        break
      }
    }
  }

  #reached(node: number, next: number, arc: number, sign: number, word: number): number {
    const { width, costs } = this.#network
    return (
      this.#distances[node * width + word]! +
      sign * costs[arc * width + word]! +
      this.#potentials[node * width + word]! -
      this.#potentials[next * width + word]!
    )
  }
}
