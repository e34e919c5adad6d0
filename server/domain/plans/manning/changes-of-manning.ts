import type { PlanProblem } from '../problem.ts'

/**
 * What a manning plan rests on and is not so any more, a sentence each: of those chosen and not accepted yet who can no longer stand
 * there, and posts that have become short since. What was accepted is no news.
 */
export function changesOfManning(
  before: PlanProblem,
  now: PlanProblem,
  chosen: readonly string[],
  accepted: readonly string[],
): string[] {
  const key = ({ wanted, place }: { readonly wanted: string; readonly place: string }) => `${wanted} ${place}`
  const soldierOf = (place: string) => place.slice(0, place.lastIndexOf('@'))
  const possible = new Set(now.pairs.map(({ wanted, place }) => `${wanted} ${soldierOf(place)}`))
  const stillWanted = new Set(now.wanted.map(({ id }) => id))
  const titles = new Map(before.wanted.map(({ id, title }) => [id, String(title)]))
  const open = before.pairs.filter(({ id }) => chosen.includes(id) && !accepted.includes(id))
  const isPost = new Set(before.wanted.filter(({ kind }) => kind === 'post').map(({ id }) => id))
  const sentences = open
    .filter(({ wanted }) => isPost.has(wanted))
    .flatMap((pair) => {
      const title = titles.get(pair.wanted)!
      if (!stillWanted.has(pair.wanted)) return [`${title} is filled, or is no post any more.`]
      return possible.has(`${pair.wanted} ${soldierOf(pair.place)}`)
        ? []
        : [`Whoever was proposed for ${title} can no longer stand there.`]
    })
  const known = new Set(before.wanted.map(({ id }) => id))
  const more = now.wanted.filter(({ id, kind }) => kind === 'post' && !known.has(id)).length
  if (more > 0) sentences.push(more === 1 ? 'One more post is short.' : `${more} more posts are short.`)
  const ways = new Set(before.pairs.filter(({ wanted }) => stillWanted.has(wanted)).map(key))
  const others = now.pairs.filter((pair) => isPost.has(pair.wanted) && !ways.has(key(pair))).length
  if (others > 0 && open.length < isPost.size) sentences.push('Soldiers can stand who could not when it was made.')
  return sentences
}
