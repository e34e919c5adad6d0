/** Nodes by distance, the nearest first; of equally near ones that with the lower number. Distances have several words. */
export class NodeHeap {
  readonly #nodes: Int32Array
  readonly #at: Int32Array
  readonly #distances: Float64Array
  readonly #width: number
  #size = 0

  /** In: how many nodes there are, their distances (node after node, `width` words each), which may fall while it is used. */
  constructor(count: number, distances: Float64Array, width: number) {
    this.#nodes = new Int32Array(count)
    this.#at = new Int32Array(count).fill(-1)
    this.#distances = distances
    this.#width = width
  }

  get size(): number {
    return this.#size
  }

  clear(): void {
    for (let place = 0; place < this.#size; place++) this.#at[this.#nodes[place]!] = -1
    this.#size = 0
  }

  /** Puts a node in, or up where its distance has fallen. */
  raise(node: number): void {
    let place = this.#at[node]!
    if (place === -1) place = this.#size++
    while (place > 0) {
      const above = (place - 1) >> 1
      const other = this.#nodes[above]!
      if (!this.#isNearer(node, other)) break
      this.#put(other, place)
      place = above
    }
    this.#put(node, place)
  }

  /** Takes out the nearest. */
  take(): number {
    const nearest = this.#nodes[0]!
    this.#at[nearest] = -1
    const last = this.#nodes[--this.#size]!
    if (this.#size === 0) return nearest
    let place = 0
    for (;;) {
      let below = 2 * place + 1
      if (below >= this.#size) break
      if (below + 1 < this.#size && this.#isNearer(this.#nodes[below + 1]!, this.#nodes[below]!)) below++
      if (!this.#isNearer(this.#nodes[below]!, last)) break
      this.#put(this.#nodes[below]!, place)
      place = below
    }
    this.#put(last, place)
    return nearest
  }

  #put(node: number, place: number): void {
    this.#nodes[place] = node
    this.#at[node] = place
  }

  #isNearer(a: number, b: number): boolean {
    for (let word = 0; word < this.#width; word++) {
      const difference = this.#distances[a * this.#width + word]! - this.#distances[b * this.#width + word]!
      if (difference !== 0) return difference < 0
    }
    return a < b
  }
}
