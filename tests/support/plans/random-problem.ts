import type { Level, PlanProblem } from '../../../server/domain/plans/problem.ts'

/** Numbers from 0 up to 1 that follow from a seed (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

interface Size {
  readonly wanted: number
  readonly places: number
  readonly density: number
  readonly sets: number
  readonly withSquares?: boolean
}

/** A problem that follows from a seed, up to a size, with levels and sets of all sorts. */
export function randomProblem(seed: number, size: Size): PlanProblem {
  const next = seeded(seed)
  const below = (count: number) => Math.floor(next() * count)
  const wanted = Array.from({ length: 1 + below(size.wanted) }, (_, at) => ({ id: `w${at}` }))
  const places = Array.from({ length: 1 + below(size.places) }, (_, at) => ({ id: `p${at}` }))
  const pairs = wanted
    .flatMap((one) => places.map((place) => ({ wanted: one.id, place: place.id })))
    .filter(() => next() < size.density)
    .map((pair, at) => ({ id: String(at), ...pair }))
  const some = (share: number) => pairs.filter(() => next() < share).map(({ id }) => id)
  const atMost = Array.from({ length: below(size.sets + 1) }, () => ({ pairs: some(0.5), max: below(3) }))
  const values = [() => 1, () => below(4), () => Math.round(next() * 100) / 100, () => below(5) - 2]
  const levels: Level[] = [
    { name: 'placed', sense: 'max', constant: 0, terms: pairs.map(({ id }) => [id, 1]) },
    ...Array.from({ length: 1 + below(3) }, (_, at): Level => {
      if (size.withSquares && next() < 0.5) {
        const groups = Array.from({ length: 1 + below(3) }, () => ({ base: below(4), pairs: some(0.4) }))
        return { name: `even ${at}`, sense: 'min', squares: groups }
      }
      const value = values[below(values.length)]!
      const sense = next() < 0.5 ? 'max' : 'min'
      return { name: `level ${at}`, sense, constant: below(3), terms: some(0.8).map((id) => [id, value()]) }
    }),
  ]
  if (next() < 0.3) levels.reverse()
  return { kind: 'retests', wanted, places, pairs, atMost, levels }
}
