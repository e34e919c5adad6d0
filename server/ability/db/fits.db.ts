import type { Transaction } from '../../db/client.ts'
import type { UnitFit } from '../../domain/ability/unit-fit.ts'

/** A fit as it is stored. */
export interface StoredFit {
  /** First day that is not in it; null: all there was. */
  readonly before: string | null
  /** Of all that it was made of. */
  readonly fingerprint: string
  readonly fittedAt: Date
  /** Last day of a test in it; null: none. */
  readonly through: string | null
  readonly fit: UnitFit
}

/** All fits of a standard. */
export async function listFits(tx: Transaction, standardId: string): Promise<StoredFit[]> {
  return tx.$queryRaw<StoredFit[]>`
    SELECT before_day::text AS before, fingerprint, fitted_at AS "fittedAt", through_day::text AS through, fit
    FROM ability_fit WHERE standard_id = ${standardId}::uuid`
}

/** By standard the fit that rests on what was there on a day: the present one, or where it is older the last that ended before. */
export async function readFits(
  tx: Transaction,
  standardIds: readonly string[],
  before: string | null,
): Promise<Map<string, StoredFit>> {
  const rows = await tx.$queryRaw<(StoredFit & { standardId: string })[]>`
    SELECT DISTINCT ON (standard_id) standard_id::text AS "standardId", before_day::text AS before, fingerprint,
      fitted_at AS "fittedAt", through_day::text AS through, fit
    FROM ability_fit WHERE standard_id = ANY(${[...standardIds]}::uuid[])
      AND (${before === null} AND before_day IS NULL OR before_day <= ${before}::date)
    ORDER BY standard_id, before_day DESC NULLS FIRST`
  return new Map(rows.map(({ standardId, ...fit }) => [standardId, fit]))
}

/** Stores a fit in place of the one before of the same days. */
export async function storeFit(tx: Transaction, standardId: string, stored: StoredFit): Promise<void> {
  const { before, fingerprint, fittedAt, through, fit } = stored
  await tx.$executeRaw`
    INSERT INTO ability_fit (standard_id, before_day, fingerprint, fitted_at, through_day, fit)
    VALUES (${standardId}::uuid, ${before}::date, ${fingerprint}, ${fittedAt}, ${through}::date, ${JSON.stringify(fit)}::jsonb)
    ON CONFLICT (standard_id, before_day) DO UPDATE SET fingerprint = excluded.fingerprint,
      fitted_at = excluded.fitted_at, through_day = excluded.through_day, fit = excluded.fit`
}

/** What the present fit of a standard knows of a grader's severity, in logits of a trial. */
export interface FittedSeverity {
  readonly standard: string
  readonly graderId: string
  readonly severity: number
  readonly variance: number
  /** Standard deviation between graders. */
  readonly spread: number
}

/** By standard and grader, of the present fits. */
export async function listFittedSeverities(tx: Transaction, standards: readonly string[]): Promise<FittedSeverity[]> {
  return tx.$queryRaw<FittedSeverity[]>`
    SELECT st.code AS standard, of.id AS "graderId", (of.value ->> 'severity')::float8 AS severity,
      (of.value ->> 'variance')::float8 AS variance, (f.fit -> 'spread' ->> 'grader')::float8 AS spread
    FROM ability_fit f JOIN standard st ON st.id = f.standard_id
      CROSS JOIN LATERAL jsonb_each(f.fit -> 'graders') AS of(id, value)
    WHERE f.before_day IS NULL AND st.code = ANY(${[...standards]}) ORDER BY 1, 2`
}
