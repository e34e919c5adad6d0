const LONG = 8
/** What eight points in a row on one side have by chance where each side is as likely. */
const RARE = 1 / 2 ** LONG

/** On which side of the centre a point lies (the sign of its distance), and how likely it was to lie on that side. */
export type PointSide = { side: number; chance: number }

/**
 * Which points stand in a long run on one side of the centre: the eighth in a row and every further one, once all of them
 * together are no likelier on that side than 1 in 2⁸.
 *
 * In: for each point its side with the probability of that side, null where there is none. A point on the centre (0) ends
 * a run; a missing one is passed over. By chance a given point ends such a run in at most 2/2⁸ = 0.8 % of cases. Where the
 * sides are not as likely (hardly anybody fails, so most months lie below) eight in a row are nothing unusual, and a run
 * must be longer; that is what the second condition is for.
 * Source of the eight: Western Electric (1956), *Statistical Quality Control Handbook*.
 */
export function longRuns(points: readonly (PointSide | null)[]): boolean[] {
  let run = { side: 0, length: 0, chance: 1 }
  return points.map((point) => {
    if (point === null) return false
    const { side, chance } = point
    if (side === 0) run = { side, length: 0, chance: 1 }
    else if (side === run.side) run = { side, length: run.length + 1, chance: run.chance * chance }
    else run = { side, length: 1, chance }
    return run.length >= LONG && run.chance <= RARE * (1 + 1e-9)
  })
}
