import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { GainKind } from '../../domain/ability/attempt-kind.ts'
import { type FindingsFilter, isAttemptOf } from './findings-filter.db.ts'

/** How many attempts with a sponsor have exactly these marks: with this sponsor, or with any other. */
export interface CoachedPatternRow {
  readonly versionId: string
  readonly kind: GainKind
  readonly isOwn: boolean
  readonly marks: string
  readonly sheets: number
}

/** The attempts with marks of a filter by kind, marks, and whether the sponsor is this one. */
export async function readCoachedPatterns(
  tx: Transaction,
  filter: FindingsFilter,
  sponsorId: string,
): Promise<CoachedPatternRow[]> {
  return tx.$queryRaw<CoachedPatternRow[]>`
    SELECT s.standard_version_id::text AS "versionId", s.tallied_kind AS kind, s.sponsor_id = ${sponsorId}::uuid AS "isOwn",
      s.marks, count(*)::int AS sheets
    FROM sheet s WHERE s.sponsor_id IS NOT NULL AND s.marks <> '' AND ${isAttemptOf(filter, Prisma.sql`s`)}
    GROUP BY 1, 2, 3, 4 ORDER BY 1, 2, 3, 4`
}
