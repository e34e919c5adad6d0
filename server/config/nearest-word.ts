/**
 * The known word that takes the fewest changes of a letter (put in, left out, replaced) to turn into `word`
 * (Levenshtein distance); among equals the first.
 */
export function nearestWord(word: string, known: readonly [string, ...string[]] | readonly string[]): string {
  const byDistance = known.map((candidate) => ({ candidate, distance: distance(word, candidate) }))
  return byDistance.reduce((best, next) => (next.distance < best.distance ? next : best)).candidate
}

function distance(from: string, to: string): number {
  let above = Array.from({ length: to.length + 1 }, (_, column) => column)
  for (let row = 1; row <= from.length; row++) {
    const current = [row]
    for (let column = 1; column <= to.length; column++) {
      const replaced = above[column - 1]! + (from[row - 1] === to[column - 1] ? 0 : 1)
      current.push(Math.min(replaced, above[column]! + 1, current[column - 1]! + 1))
    }
    above = current
  }
  return above[to.length]!
}
