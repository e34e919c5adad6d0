import { readinessPairs } from '../../assessment/db/standings.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { StandingRow } from '../../domain/certification/compare-standings.ts'

export interface ComparedStanding extends StandingRow {
  readonly name: string
  readonly grade: string
  readonly unitId: string
}

/** How everybody of the strength stands on a day in every certification that fits them or that they hold. */
export async function readStandingsOn(tx: Transaction, scope: Scope, day: string): Promise<ComparedStanding[]> {
  return tx.$queryRaw<ComparedStanding[]>`
    WITH ${readinessPairs(scope, Prisma.sql`${day}::date`, {})}
    SELECT soldier_id::text AS "soldierId", s.roster_number AS "rosterNumber",
      s.family_name || ', ' || s.given_name AS name, grade, unit_id::text AS "unitId", certification, status,
      valid_through::text AS "validThrough", required
    FROM shown JOIN soldier s ON s.id = shown.soldier_id`
}

/** How many are of the strength on a day. */
export async function countStrength(tx: Transaction, day: string): Promise<number> {
  const rows = await tx.$queryRaw<{ count: number }[]>`
    SELECT count(*)::int AS count FROM soldier_period WHERE daterange(from_day, through_day, '[]') @> ${day}::date`
  return rows[0]!.count
}
