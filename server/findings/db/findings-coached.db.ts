import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { GainKind } from '../../domain/ability/attempt-kind.ts'
import { type FindingsFilter, isAttemptOf } from './findings-filter.db.ts'

/** A kind of attempt as the database tells them apart; `severity` of its grader in tenths of a logit. */
export interface StratumRow {
  readonly code: number
  readonly standard: string
  readonly arm: string | null
  readonly kind: GainKind
  readonly severity: number
}

/** Candidates alike: attempts as twice the code of their stratum, and 1 more where passed. */
export interface CoachedRows {
  readonly strata: readonly StratumRow[]
  /** All attempts of candidates. */
  readonly candidates: readonly { readonly attempts: readonly number[]; readonly count: number }[]
  /** With a sponsor, and before the first with that sponsor. */
  readonly coached: readonly {
    readonly sponsorId: string
    readonly before: readonly number[]
    readonly own: readonly number[]
    readonly count: number
  }[]
}

/** How severe a grader is known to be in a standard. */
export interface KnownSeverity {
  readonly standard: string
  readonly graderId: string
  readonly severity: number
}

/**
 * Attempts of a filter by candidate and by sponsor. Candidates who are alike in them come as one row with their count, so what
 * comes out does not grow with the record; the work grows with the attempts of the filter.
 */
export async function readCoached(
  tx: Transaction,
  filter: FindingsFilter,
  severities: readonly KnownSeverity[],
): Promise<CoachedRows> {
  const [row] = await tx.$queryRaw<[{ rows: { [Key in keyof CoachedRows]: CoachedRows[Key] | null } }]>`
    WITH known AS (
      SELECT standard, "graderId" AS grader_id, round(severity * 10)::int AS severity
      FROM jsonb_to_recordset(${JSON.stringify(severities)}::jsonb) AS x(standard text, "graderId" uuid, severity float8)),
    attempt AS MATERIALIZED (
      SELECT s.candidate_id, s.sponsor_id, s.outcome = 'GO' AS passed, st.code AS standard, s.arm, s.tallied_kind AS kind,
        coalesce(known.severity, 0) AS severity,
        row_number() OVER (PARTITION BY s.candidate_id ORDER BY s.finished_at, s.id) AS place,
        dense_rank() OVER (ORDER BY st.code, s.arm NULLS FIRST, s.tallied_kind, coalesce(known.severity, 0))::int - 1 AS code
      FROM sheet s JOIN standard st ON st.id = s.standard_id
        LEFT JOIN known ON known.standard = st.code AND known.grader_id = s.grader_id
      WHERE ${isAttemptOf(filter, Prisma.sql`s`)}),
    marked AS MATERIALIZED (SELECT *, 2 * code + passed::int AS mark FROM attempt),
    own AS MATERIALIZED (
      SELECT candidate_id, sponsor_id, min(place) AS first, json_agg(mark ORDER BY mark)::text AS own
      FROM marked WHERE sponsor_id IS NOT NULL GROUP BY 1, 2),
    coached AS (
      SELECT o.sponsor_id, o.own, coalesce(json_agg(m.mark ORDER BY m.mark) FILTER (WHERE m.mark IS NOT NULL)::text, '[]') AS before
      FROM own o LEFT JOIN marked m ON m.candidate_id = o.candidate_id AND m.place < o.first
      GROUP BY o.candidate_id, o.sponsor_id, o.own)
    SELECT json_build_object(
      'strata', (SELECT json_agg(DISTINCT jsonb_build_object('code', code, 'standard', standard, 'arm', arm, 'kind', kind,
        'severity', severity)) FROM attempt),
      'candidates', (SELECT json_agg(json_build_object('attempts', attempts::json, 'count', n)) FROM (
        SELECT attempts, count(*) AS n FROM (
          SELECT json_agg(mark ORDER BY mark)::text AS attempts FROM marked GROUP BY candidate_id) each
        GROUP BY 1 ORDER BY 1) alike),
      'coached', (SELECT json_agg(json_build_object('sponsorId', sponsor_id, 'before', before::json, 'own', own::json,
        'count', n)) FROM (
        SELECT sponsor_id, before, own, count(*) AS n FROM coached GROUP BY 1, 2, 3 ORDER BY 1, 2, 3) alike)) AS rows`
  const { strata, candidates, coached } = row.rows
  return { strata: strata ?? [], candidates: candidates ?? [], coached: coached ?? [] }
}
