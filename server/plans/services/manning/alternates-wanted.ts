import type { CeremonyRow } from '../../../ceremonies/db/ceremonies.db.ts'

/** Ceremonies of so many days before count as the load of a soldier. */
export const LOAD_DAYS = 90
/** For every so many posts one alternate. */
const POSTS_AN_ALTERNATE = 5

/** How many alternates a ceremony wants beside those it has. */
export const alternatesWanted = ({ posts, alternates }: Pick<CeremonyRow, 'posts' | 'alternates'>): number =>
  Math.max(0, Math.ceil(posts.length / POSTS_AN_ALTERNATE) - alternates.length)
