import type { Share } from '../../domain/statistics/proportions/share.ts'
import type { Credit } from './gather-credits.ts'

/** Attempts and passes of everybody together, of all attempts or of first ones. */
export const sumCredits = (people: readonly Credit[], which: 'all' | 'first'): Share => ({
  count: people.reduce((sum, person) => sum + person[which].count, 0),
  n: people.reduce((sum, person) => sum + person[which].n, 0),
})
