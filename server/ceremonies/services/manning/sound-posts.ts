import type { CeremonyBody } from '../../../contract/ceremonies/ceremonies.ts'
import type { ErrorCode } from '../../../contract/error-codes.ts'
import { AppError, type ErrorItem } from '../../../errors.ts'
import type { NewPost } from '../../db/ceremony-writes.db.ts'

type Post = Omit<CeremonyBody['posts'][number], 'soldierId'> & { readonly soldierId: string | null }

export const problem = (pointer: string, rule: ErrorCode, detail: string): ErrorItem => ({ pointer, rule, detail })

/** Throws an AppError that tells of every problem, where there is one. */
export function requireNone(items: readonly ErrorItem[]): void {
  if (items[0]) throw new AppError('invalid', items[0].rule, items[0].detail, items)
}

/**
 * Posts as they are stored. In: certification ids by code; the soldiers among those newly named who may be; those who
 * step in. Throws an AppError for an unknown certification or soldier, for a place taken and for a soldier named twice.
 */
export function soundPosts<Given extends Post>(
  posts: readonly Given[],
  certifications: ReadonlyMap<string, string>,
  mayBeNamed: ReadonlySet<string>,
  alternates: readonly string[],
): (NewPost & Omit<Given, 'certification'>)[] {
  const count = new Map<string, number>()
  for (const id of [...posts.flatMap(({ soldierId }) => soldierId ?? []), ...alternates]) {
    count.set(id, (count.get(id) ?? 0) + 1)
  }
  const taken = new Set<string>()
  const items = posts.flatMap((post, index): ErrorItem[] => {
    const at = `/posts/${index}`
    const where = `${post.row} ${post.place}`
    const isTaken = taken.has(where)
    taken.add(where)
    const { soldierId } = post
    return [
      !certifications.has(post.certification) &&
        problem(`${at}/certification`, 'unknown-certification', `There is no certification "${post.certification}".`),
      isTaken &&
        problem(`${at}/place`, 'place-taken', `Row ${post.row}, place ${post.place} has a post already: pick another.`),
      soldierId !== null &&
        !mayBeNamed.has(soldierId) &&
        problem(`${at}/soldierId`, 'unknown-person', 'Nobody on the roster has this id.'),
      soldierId !== null && count.get(soldierId)! > 1 && problem(`${at}/soldierId`, 'named-twice', NAMED_TWICE),
    ].filter((item) => item !== false)
  })
  requireNone(items)
  return posts.map(({ certification, ...post }) => ({ ...post, certificationId: certifications.get(certification)! }))
}

export const NAMED_TWICE = 'One soldier is named twice in this ceremony: take the name off one post or alternate.'
