import type { PostNeed, SoldierFacts, WhyNot } from './types.ts'
import type { Occasion } from './why-not.ts'
import { whyNot } from './why-not.ts'

/** Of several posts those where a soldier may stand, and what speaks against the one that fits best. */
export interface Fit<Post> {
  readonly canTake: Post[]
  /** Empty where there is a post to take. */
  readonly whyNot: WhyNot[]
}

/** Holds a soldier against several posts of one ceremony; `factsFor` gives what is known for a post's certification. */
export function fitOf<Post extends PostNeed>(
  posts: readonly Post[],
  occasion: Occasion,
  factsFor: (post: Post) => SoldierFacts,
): Fit<Post> {
  const judged = posts.map((post) => ({ post, reasons: whyNot(post, occasion, factsFor(post)) }))
  const best = judged.reduce<(typeof judged)[number] | undefined>(
    (least, one) => (least === undefined || one.reasons.length < least.reasons.length ? one : least),
    undefined,
  )
  return {
    canTake: judged.filter(({ reasons }) => reasons.length === 0).map(({ post }) => post),
    whyNot: best?.reasons ?? [],
  }
}
