import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import type { PostCandidate } from '../../../contract/ceremonies/manning.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namingScope } from '../../../domain/access/scope.ts'
import { whyNot } from '../../../domain/manning/why-not.ts'
import { notFound } from '../../../errors.ts'
import { type CeremonyRow, type PostRow, readCeremony } from '../../db/ceremonies.db.ts'
import { type CandidateRow, listPostCandidates } from '../../db/post-candidates.db.ts'
import { occasionOf } from './judge-ceremony.ts'

/** Duties of so many days before a ceremony count as the load of who could be named. */
const LOAD_DAYS = 90

/**
 * Who could be named to a post, who stood least first, with all that speaks against each. Without a search only those
 * certified that day, of a fitting grade and arm; with one anybody of the strength whom it finds.
 */
export async function findPostCandidates(
  context: Context,
  actor: Actor,
  ids: { id: string; postId: string },
  query: { q?: string | undefined; limit: number; after?: string | undefined },
): Promise<{ items: PostCandidate[]; next: string | null }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  const ceremony = await readCeremony(context.db, scope, ids.id)
  const post = ceremony?.posts.find(({ id }) => id === ids.postId)
  if (!ceremony || !post) throw notFound('post')
  const key = fromCursor(query.after, ['number', 'text'])
  const filter = { ceremonyId: ids.id, postId: ids.postId, search: query.q?.trim() || undefined, days: LOAD_DAYS }
  const rows = await listPostCandidates(context.db, namingScope(scope), filter, {
    limit: query.limit + 1,
    after: key && { load: Number(key[0]), rosterNumber: String(key[1]) },
  })
  return toPage(
    rows,
    query.limit,
    ({ load, rosterNumber }) => [load, rosterNumber],
    (row) => toCandidate(ceremony, post, row),
  )
}

function toCandidate(ceremony: CeremonyRow, post: PostRow, row: CandidateRow): PostCandidate {
  const { soldierId, rosterNumber, name, grade, unitId, heightCm, load } = row
  const hasBand = post.minHeightCm !== null || post.maxHeightCm !== null
  return {
    soldierId,
    rosterNumber,
    name,
    grade: grade!,
    unitId: unitId!,
    heightCm: hasBand ? heightCm : null,
    duties: load,
    namedAs: namedAs(ceremony, soldierId),
    whyNot: whyNot(post, occasionOf(ceremony), row),
  }
}

/** Where a soldier is named in a ceremony: the title of the post, or "alternate"; null: nowhere. */
export function namedAs({ posts, alternates }: CeremonyRow, soldierId: string): string | null {
  const post = posts.find((one) => one.soldierId === soldierId)
  return post?.title ?? (alternates.some((one) => one.soldierId === soldierId) ? 'alternate' : null)
}
