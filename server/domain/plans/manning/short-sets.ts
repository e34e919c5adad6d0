import type { PlanAnswer, PlanProblem } from '../problem.ts'

/**
 * What is short: for each post left open by a matching of most posts, the posts that together can be taken by fewer soldiers than
 * there are of them, and these soldiers; each set once. None can be made smaller: all its posts but one are matched to all
 * its soldiers, so a smaller one would have to be closed under the same exchanges (P. Hall 1935, *J. London Math. Soc.*
 * 10:26–30). In: a problem of manning and the pairs of an answer that fills most posts.
 */
export function shortSets(problem: PlanProblem, pairs: readonly string[]): PlanAnswer['short'] {
  const posts = problem.wanted.filter(({ kind }) => kind === 'post').map(({ id }) => id)
  const isPost = new Set(posts)
  const placesOf = new Map<string, string[]>(posts.map((id) => [id, []]))
  for (const { wanted, place } of problem.pairs) placesOf.get(wanted)?.push(place)
  const taken = new Set(pairs)
  const takenBy = new Map(
    problem.pairs
      .filter(({ id, wanted }) => taken.has(id) && isPost.has(wanted))
      .map(({ wanted, place }) => [place, wanted]),
  )
  const filled = new Set(takenBy.values())
  const sets = new Map<string, PlanAnswer['short'][number]>()
  for (const open of posts.filter((id) => !filled.has(id))) {
    const set = new Set([open])
    const soldiers = new Set<string>()
    for (const post of set) {
      for (const place of placesOf.get(post)!) {
        const other = takenBy.get(place)
        // A free place would fill the post: then the answer did not fill most, or two ceremonies that clash forbid it.
        if (other === undefined) continue
        soldiers.add(place.slice(0, place.lastIndexOf('@')))
        set.add(other)
      }
    }
    const inOrder = posts.filter((id) => set.has(id))
    sets.set(inOrder.join(), { posts: inOrder, soldiers: [...soldiers].sort() })
  }
  return [...sets.values()]
}
