const LONG = 8

/**
 * Which points stand in a long run on one side of the centre: the eighth in a row and every further one.
 *
 * In: for each point the sign of its distance from the centre, null where there is none. A point on the centre (0) ends
 * a run; a missing one is passed over. By chance a given point ends a run of eight in 2/2⁸ = 0.8 % of cases.
 * Source: Western Electric (1956), *Statistical Quality Control Handbook*.
 */
export function longRuns(sides: readonly (number | null)[]): boolean[] {
  let side = 0
  let length = 0
  return sides.map((next) => {
    if (next === null) return false
    length = next === 0 ? 0 : next === side ? length + 1 : 1
    side = next
    return length >= LONG
  })
}
