import { subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'

/** Days with candidates, added up over candidates, and how many candidates. */
export interface CoachingDays {
  readonly sponsorId: string
  readonly days: number
  readonly candidates: number
}

/**
 * How long sponsors coached, within a period that has an end; with a unit, only days on which the candidate was in it or
 * below it. From both days of a sponsorship on, inclusive.
 */
export async function readCoachingDays(
  tx: Transaction,
  sponsorIds: readonly string[],
  { unitId, from, to }: { readonly unitId: string | undefined; readonly from: string | null; readonly to: string },
): Promise<CoachingDays[]> {
  if (from !== null && from > to) return []
  const period = Prisma.sql`daterange(${from}::date, ${to}::date, '[]')`
  const inUnit =
    unitId === undefined
      ? { join: Prisma.empty, days: Prisma.empty }
      : {
          join: Prisma.sql`JOIN soldier_period p ON p.soldier_id = s.candidate_id AND p.unit_id = ANY(${subtree(unitId)})`,
          days: Prisma.sql`* daterange(p.from_day, p.through_day, '[]')`,
        }
  return tx.$queryRaw<CoachingDays[]>`
    SELECT sponsor_id::text AS "sponsorId", sum(upper(days) - lower(days))::int AS days,
      count(DISTINCT candidate_id)::int AS candidates
    FROM (SELECT s.sponsor_id, s.candidate_id,
        daterange(s.from_day, s.to_day, '[]') * ${period} ${inUnit.days} AS days
      FROM sponsorship s ${inUnit.join} WHERE s.sponsor_id = ANY(${[...sponsorIds]}::uuid[])) coached
    WHERE NOT isempty(days) GROUP BY sponsor_id`
}
