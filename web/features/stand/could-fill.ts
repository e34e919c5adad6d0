import type { CeremonyDetail } from '#contract/ceremonies.ts'
import type { Readiness } from '#contract/certifications.ts'

type Post = CeremonyDetail['formation'][number]
type Item = Readiness['items'][number]

/** A post is short when nobody is named to it or whoever is named cannot stand that day. */
export const isShort = (post: Post): boolean => post.soldier === null || post.soldier.whyNot.length > 0

/**
 * Who could be named to a short post: certified in its certification on the day the items are for, of one of its grades,
 * and named to no post of this ceremony yet. The arm carried that day is not among what is looked at.
 */
export const couldFill = (post: Post, formation: readonly Post[], items: readonly Item[]): Item[] => {
  const named = new Set(formation.flatMap(({ soldier }) => (soldier ? [soldier.id] : [])))
  return items.filter(
    (item) =>
      item.certification === post.certification &&
      item.status === 'certified' &&
      (post.grades === null || post.grades.includes(item.grade)) &&
      !named.has(item.soldierId),
  )
}

/** Posts that ask for the same (certification, arm, grades) together, in the order of the first of each. */
export const postsAlike = (posts: readonly Post[]): Post[][] => {
  const need = ({ certification, arm, grades }: Post) => JSON.stringify([certification, arm, grades])
  const needs = [...new Set(posts.map(need))]
  return needs.map((one) => posts.filter((post) => need(post) === one))
}
