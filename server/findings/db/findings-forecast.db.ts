import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { ForecastTest } from '../../domain/ability/check-forecasts.ts'
import { type FindingsFilter, isAttemptOf } from './findings-filter.db.ts'

export interface CheckedTest extends ForecastTest {
  readonly kind: 'first' | 'retest' | 'renewal'
}

/** The forecasts of past tests of a filter, with how they came out. */
export async function listCheckedTests(tx: Transaction, filter: FindingsFilter): Promise<CheckedTest[]> {
  return tx.$queryRaw<CheckedTest[]>`
    SELECT s.candidate_id::text AS candidate, f.forecast, s.outcome = 'GO' AS passed, f.kind, f.by_kind AS "byKind",
      f.by_last AS "byLast"
    FROM past_forecast f JOIN sheet s ON s.id = f.sheet_id
    WHERE s.state = 'counted' AND ${isAttemptOf(filter, Prisma.sql`s`)} ORDER BY s.finished_at, s.id`
}
