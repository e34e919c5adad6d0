import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { type FindingsFilter, isAttemptOf } from './findings-filter.db.ts'

/** How many attempts of a version have exactly these marks (see `markPattern`). */
export interface PatternTally {
  readonly versionId: string
  readonly marks: string
  readonly sheets: number
}

/**
 * The attempts of a filter by version and marks. The work grows with the attempts of the filter, which an index holds by
 * unit and day with all that is asked for; what comes out grows with the different marks.
 */
export async function readPatterns(tx: Transaction, filter: FindingsFilter): Promise<PatternTally[]> {
  const rows = await tx.$queryRaw<{ versionId: string; patterns: Record<string, number> }[]>`
    SELECT version_id::text AS "versionId", json_object_agg(marks, sheets) AS patterns
    FROM (SELECT s.standard_version_id AS version_id, s.marks, count(*) AS sheets FROM sheet s
      WHERE ${isAttemptOf(filter, Prisma.sql`s`)} GROUP BY 1, 2) alike
    GROUP BY version_id ORDER BY version_id`
  return rows.flatMap(({ versionId, patterns }) =>
    Object.entries(patterns).map(([marks, sheets]) => ({ versionId, marks, sheets })),
  )
}
