import type { Context } from '../../context/context.ts'
import type { Share } from '../../domain/statistics/proportions/share.ts'
import type { FindingsFilter } from '../db/findings-filter.db.ts'
import { readCreditTallies } from '../db/findings-people.db.ts'

/** Attempts and passes credited to somebody. */
export interface Credit {
  readonly soldierId: string
  readonly all: Share
  readonly first: Share
}

export interface Credits {
  readonly unit: { readonly all: Share; readonly first: Share }
  readonly people: readonly Credit[]
}

/** Who sponsored (or graded) how many attempts of a filter and how many passed, and the unit's own. */
export async function gatherCredits(
  context: Context,
  filter: FindingsFilter,
  role: 'sponsor' | 'grader',
): Promise<Credits> {
  const [unit, ...people] = (await readCreditTallies(context.db, filter, role)).map(
    ({ soldierId, attempts, passes, firstAttempts, firstPasses }) => ({
      soldierId,
      all: { count: passes, n: attempts },
      first: { count: firstPasses, n: firstAttempts },
    }),
  )
  return { unit: unit!, people: people.map((one) => ({ ...one, soldierId: one.soldierId! })) }
}
