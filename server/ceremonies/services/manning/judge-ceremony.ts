import type { CeremonyDetail, CeremonySummary } from '../../../contract/ceremonies/ceremonies.ts'
import { dutyTimes } from '../../../domain/manning/duty-times.ts'
import { fitOf } from '../../../domain/manning/fit-of.ts'
import { type Occasion, whyNot } from '../../../domain/manning/why-not.ts'
import type { AlternateRow, CeremonyRow, PostRow } from '../../db/ceremonies.db.ts'
import type { FactsRow } from '../../db/manning-facts.db.ts'
import { toInstant } from '../to-instant.ts'

type Post = CeremonyDetail['formation'][number]
type Alternate = CeremonyDetail['alternates'][number]

/** When a ceremony takes its people's time. */
export const occasionOf = (row: CeremonyRow): Occasion => ({ reportsAt: row.reportsAt, times: dutyTimes(row) })

/** Looks up what is known of a soldier for a certification, among the facts that came with a ceremony. */
function factsIn({ facts }: CeremonyRow): (soldierId: string, certification: string) => FactsRow {
  const known = new Map(facts.map((row) => [`${row.soldierId} ${row.certification}`, row]))
  return (soldierId, certification) => known.get(`${soldierId} ${certification}`)!
}

/** The posts of a ceremony with who is named and every reason why they may not stand there. */
export function judgePosts(row: CeremonyRow): Post[] {
  const occasion = occasionOf(row)
  const known = factsIn(row)
  return row.posts.map(({ soldierId, ...post }): Post => {
    if (soldierId === null) return { ...post, filled: false, otherUnit: false, soldier: null }
    const facts = known(soldierId, post.certification)
    const reasons = whyNot(post, occasion, facts)
    const soldier = { ...personOf(facts), status: facts.status, validThrough: facts.validThrough, whyNot: reasons }
    return {
      ...post,
      filled: reasons.length === 0,
      otherUnit: !facts.inScope,
      soldier: facts.inScope ? soldier : null,
    }
  })
}

/** The alternates of a ceremony in order, with the posts they could take. */
export function judgeAlternates(row: CeremonyRow): Alternate[] {
  const occasion = occasionOf(row)
  const known = factsIn(row)
  return row.alternates.map(({ id, soldierId, postIds }): Alternate => {
    const posts = postsFor(row.posts, postIds)
    const fit = fitOf(posts, occasion, ({ certification }) => known(soldierId, certification))
    const facts = known(soldierId, posts[0]!.certification)
    if (!facts.inScope) return { id, postIds, otherUnit: true, soldier: null }
    const soldier = { ...personOf(facts), canTake: fit.canTake.map((post) => post.id), whyNot: fit.whyNot }
    return { id, postIds, otherUnit: false, soldier }
  })
}

/** The posts an alternate steps in for: those named, else all. */
const postsFor = (posts: readonly PostRow[], postIds: AlternateRow['postIds']): readonly PostRow[] =>
  postIds.length > 0 ? posts.filter(({ id }) => postIds.includes(id)) : posts

const personOf = ({ soldierId, rosterNumber, name, grade, unitId }: FactsRow) => ({
  id: soldierId,
  rosterNumber,
  name,
  grade: grade ?? '',
  unitId,
})

/** What a list says of a ceremony. */
export function toSummary(row: CeremonyRow, posts = judgePosts(row)): CeremonySummary {
  const { id, title, place, unitId, day, cancelReason } = row
  return {
    id,
    title,
    place,
    unitId,
    day,
    cancelReason,
    reportsAt: toInstant(row.reportsAt),
    startsAt: toInstant(row.startsAt),
    endsAt: toInstant(row.endsAt),
    posts: posts.length,
    filled: posts.filter(({ filled }) => filled).length,
  }
}
