import type { CeremonyBody } from '../../server/contract/ceremonies/ceremonies.ts'
import { isAble, type Occasion, whoIsThere } from './name-for-post.ts'
import type { Program } from './program/program.ts'
import type { Random } from './random.ts'

/** At most so many step in for the posts of one certification. */
const EACH = 2

/**
 * Who steps in at a ceremony, by roster number: for each certification its posts ask for up to two who could take one.
 * They are not kept from being named elsewhere that day, so that here and there two duties overlap.
 */
export function alternatesFor(
  program: Program,
  random: Random,
  occasion: Occasion,
  posts: CeremonyBody['posts'],
): string[] {
  const free = whoIsThere(program, { ...occasion, taken: new Set() })
  const chosen = new Set<string>()
  const certifications = [...new Set(posts.map(({ certification }) => certification))]
  for (const certification of certifications) {
    const own = posts.filter((post) => post.certification === certification)
    const able = free
      .filter(({ key }) => !chosen.has(key) && !posts.some(({ soldierId }) => soldierId === key))
      .filter((one) => own.some((post) => isAble(program, occasion, post, one)))
    for (const { key } of random.shuffle(able).slice(0, random.integer(0, EACH))) chosen.add(key)
  }
  return [...chosen]
}
