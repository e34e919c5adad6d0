import type { Context } from '../../context/context.ts'
import type { Stratum } from '../../domain/statistics/expectation/expected-passes.ts'
import type { Share } from '../../domain/statistics/proportions/share.ts'
import type { FindingsFilter } from '../db/findings-filter.db.ts'
import { readStrata, type StratumTally } from '../db/findings-people.db.ts'

/** Attempts and passes credited to somebody. */
export interface Credit {
  readonly soldierId: string
  readonly all: Share
  readonly first: Share
  /** By arm, standard and kind of attempt, beside the unit's. */
  readonly strata: readonly Stratum[]
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
  const rows = await readStrata(context.db, filter, role)
  const ofUnit = rows.filter(({ soldierId }) => soldierId === null)
  const unitRates = new Map(ofUnit.map((row) => [keyOf(row), shareOf(row)]))
  const byPerson = new Map<string, StratumTally[]>()
  for (const row of rows) {
    if (row.soldierId !== null) byPerson.set(row.soldierId, [...(byPerson.get(row.soldierId) ?? []), row])
  }
  const people = [...byPerson].map(([soldierId, own]) => ({
    soldierId,
    ...totals(own),
    strata: own.map((row) => ({ key: keyOf(row), own: shareOf(row), unit: unitRates.get(keyOf(row))! })),
  }))
  return { unit: totals(ofUnit), people }
}

const keyOf = ({ standard, arm, kind }: StratumTally): string => JSON.stringify([standard, arm, kind])

const shareOf = ({ attempts, passes }: StratumTally): Share => ({ count: passes, n: attempts })

function totals(rows: readonly StratumTally[]): { all: Share; first: Share } {
  return { all: sum(rows), first: sum(rows.filter(({ kind }) => kind === 'first')) }
}

const sum = (rows: readonly StratumTally[]): Share => ({
  count: rows.reduce((total, { passes }) => total + passes, 0),
  n: rows.reduce((total, { attempts }) => total + attempts, 0),
})
