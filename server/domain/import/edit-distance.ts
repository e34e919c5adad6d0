/**
 * How many changes of a letter turn one text into another: put in, left out, replaced, or two neighbours swapped
 * (optimal string alignment, the restricted form of the Damerau–Levenshtein distance).
 */
export function editDistance(from: string, to: string): number {
  let beforeAbove: number[] = []
  let above = Array.from({ length: to.length + 1 }, (_, column) => column)
  for (let row = 1; row <= from.length; row++) {
    const current = [row]
    for (let column = 1; column <= to.length; column++) {
      const same = from[row - 1] === to[column - 1]
      let least = Math.min(above[column - 1]! + (same ? 0 : 1), above[column]! + 1, current[column - 1]! + 1)
      const swapped = row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1]
      if (swapped) least = Math.min(least, beforeAbove[column - 2]! + 1)
      current.push(least)
    }
    beforeAbove = above
    above = current
  }
  return above[to.length]!
}
