import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { CandidateHistory } from '../../domain/ability/candidate-history.ts'
import type { PastForecast } from '../../domain/ability/past-forecasts.ts'
import type { UnitFit } from '../../domain/ability/unit-fit.ts'

interface HistoryRow {
  readonly candidateId: string
  readonly standardId: string
  readonly tests:
    | readonly {
        readonly id: string
        readonly graderId: string
        readonly day: string
        readonly version: number
        readonly passed: boolean
        readonly marks: string
        readonly counts: readonly number[] | null
      }[]
    | null
  readonly others: CandidateHistory['others'] | null
}

const MOST_PER_QUESTION = 2_000

/** The histories in a standard of everybody who was tested in it, by candidate. */
export async function readHistories(tx: Transaction, standardId: string): Promise<CandidateHistory[]> {
  const histories: CandidateHistory[] = []
  for (let after: string | null = null; ; ) {
    const rows: HistoryRow[] = await historiesOf(
      tx,
      Prisma.sql`SELECT DISTINCT candidate_id AS id, standard_id FROM sheet WHERE standard_id = ${standardId}::uuid
        AND ${after === null ? Prisma.sql`true` : Prisma.sql`candidate_id > ${after}::uuid`}
        ORDER BY 1 LIMIT ${MOST_PER_QUESTION}`,
    )
    histories.push(...rows.map(toHistory))
    if (rows.length < MOST_PER_QUESTION) return histories
    after = rows.at(-1)!.candidateId
  }
}

/** Whose past in which standard. */
export interface HistoryAsked {
  readonly candidateId: string
  readonly standardId: string
}

/** The histories asked for, in one question and in no order; also of those who were never tested. */
export async function readHistoriesOf(
  tx: Transaction,
  asked: readonly HistoryAsked[],
): Promise<(CandidateHistory & HistoryAsked)[]> {
  const rows = await historiesOf(
    tx,
    Prisma.sql`SELECT DISTINCT id, standard_id FROM unnest(${asked.map(({ candidateId }) => candidateId)}::uuid[],
      ${asked.map(({ standardId }) => standardId)}::uuid[]) AS asked(id, standard_id)`,
  )
  return rows.map((row) => ({ ...toHistory(row), standardId: row.standardId }))
}

/**
 * Counted tests by the first grader, of the revision in force, and the awards and withdrawals beside them.
 * In: SQL of candidates and standards, as `id` and `standard_id`.
 */
function historiesOf(tx: Transaction, people: Prisma.Sql): Promise<HistoryRow[]> {
  const counts = Prisma.sql`(SELECT json_agg((m->>'correct')::int * 1000 + (m->>'incorrect')::int ORDER BY place)
    FROM sheet_revision r, jsonb_array_elements(r.score->'minors') WITH ORDINALITY AS minor(m, place)
    WHERE r.sheet_id = s.id AND r.number = s.revision)`
  return tx.$queryRaw<HistoryRow[]>`
    SELECT person.id::text AS "candidateId", person.standard_id::text AS "standardId", tests.list AS tests,
      others.list AS others
    FROM (${people}) person
    CROSS JOIN LATERAL (SELECT json_agg(json_build_object('id', s.id, 'graderId', s.grader_id, 'day', s.day,
        'version', v.version, 'passed', s.outcome = 'GO', 'marks', s.marks, 'counts', ${counts})
        ORDER BY s.finished_at, s.id) AS list
      FROM sheet s JOIN standard_version v ON v.id = s.standard_version_id
      WHERE s.candidate_id = person.id AND s.standard_id = person.standard_id AND s.state = 'counted'
        AND s.purpose = 'test' AND s.second_of IS NULL AND s.ending <> 'void') tests
    CROSS JOIN LATERAL (SELECT json_agg(json_build_object('day', day, 'kind', kind) ORDER BY day, kind) AS list
      FROM (SELECT awarded_on AS day, 'award' AS kind, certification_id FROM carried_award WHERE soldier_id = person.id
        UNION ALL SELECT on_day, 'withdrawal', certification_id FROM withdrawal WHERE soldier_id = person.id) event
      WHERE certification_id IN (SELECT certification_id FROM certification_standard
        WHERE standard_id = person.standard_id)) others
    ORDER BY 1`
}

function toHistory({ candidateId, tests, others }: HistoryRow): CandidateHistory {
  return {
    candidateId,
    others: others ?? [],
    tests: (tests ?? []).map(({ counts, marks, ...test }) => {
      const known = marks === '' ? [] : (counts ?? [])
      return {
        ...test,
        marks,
        correct: known.map((both) => Math.floor(both / 1000)),
        tried: known.map((both) => Math.floor(both / 1000) + (both % 1000)),
      }
    }),
  }
}

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

/** Stores a fit in place of the one before of the same days. */
export async function storeFit(tx: Transaction, standardId: string, stored: StoredFit): Promise<void> {
  const { before, fingerprint, fittedAt, through, fit } = stored
  await tx.$executeRaw`
    INSERT INTO ability_fit (standard_id, before_day, fingerprint, fitted_at, through_day, fit)
    VALUES (${standardId}::uuid, ${before}::date, ${fingerprint}, ${fittedAt}, ${through}::date, ${JSON.stringify(fit)}::jsonb)
    ON CONFLICT (standard_id, before_day) DO UPDATE SET fingerprint = excluded.fingerprint,
      fitted_at = excluded.fitted_at, through_day = excluded.through_day, fit = excluded.fit`
}

/** What the stored forecasts of a standard's tests were made of, by test. */
export async function listForecastPrints(tx: Transaction, standardId: string): Promise<Map<string, string>> {
  const rows = await tx.$queryRaw<{ id: string; fingerprint: string }[]>`
    SELECT f.sheet_id::text AS id, f.fingerprint FROM past_forecast f JOIN sheet s ON s.id = f.sheet_id
    WHERE s.standard_id = ${standardId}::uuid`
  return new Map(rows.map(({ id, fingerprint }) => [id, fingerprint]))
}

/** Stores forecasts in place of older ones. A sheet that was removed meanwhile is passed over. */
export async function storePastForecasts(
  tx: Transaction,
  forecasts: readonly (PastForecast & { readonly fingerprint: string })[],
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO past_forecast (sheet_id, kind, forecast, by_kind, by_last, fingerprint)
    SELECT "testId", kind, forecast, "byKind", "byLast", fingerprint
    FROM json_to_recordset(${JSON.stringify(forecasts)}::json)
      AS x("testId" uuid, kind text, forecast float8, "byKind" float8, "byLast" float8, fingerprint text)
    WHERE EXISTS (SELECT FROM sheet WHERE id = "testId")
    ON CONFLICT (sheet_id) DO UPDATE SET kind = excluded.kind, forecast = excluded.forecast, by_kind = excluded.by_kind,
      by_last = excluded.by_last, fingerprint = excluded.fingerprint`
}

/** How the forecasts of a standard's tests of a kind before a day did against the unit's pass rate. */
export interface KindScore {
  readonly kind: 'first' | 'retest' | 'renewal'
  readonly n: number
  readonly brier: number
  readonly byKind: number
}

/** By standard and kind, for the tests up to a day. */
export async function readKindScores(
  tx: Transaction,
  standardIds: readonly string[],
  day: string,
): Promise<(KindScore & { standardId: string })[]> {
  return tx.$queryRaw<(KindScore & { standardId: string })[]>`
    SELECT s.standard_id::text AS "standardId", f.kind, count(*)::int AS n,
      avg((f.forecast - (s.outcome = 'GO')::int) ^ 2) AS brier, avg((f.by_kind - (s.outcome = 'GO')::int) ^ 2) AS "byKind"
    FROM past_forecast f JOIN sheet s ON s.id = f.sheet_id
    WHERE s.standard_id = ANY(${[...standardIds]}::uuid[]) AND s.state = 'counted' AND s.day <= ${day}::date
    GROUP BY s.standard_id, f.kind`
}

/** Those of these candidates whom a grader is booked to judge, first or second, and has not judged yet. */
export async function candidatesToGrade(
  tx: Transaction,
  graderId: string,
  candidateIds: readonly string[],
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT DISTINCT candidate_id::text AS id FROM booking WHERE candidate_id = ANY(${[...candidateIds]}::uuid[])
      AND ${graderId}::uuid IN (grader_id, second_grader_id) AND state IN ('booked', 'checked in')`
  return rows.map(({ id }) => id)
}

/** Goes up with everything that is entered, and how many counted sheets there are. */
export async function readRecordState(tx: Transaction): Promise<{ entry: string; sheets: number }> {
  const rows = await tx.$queryRaw<{ entry: string; sheets: number }[]>`
    SELECT coalesce((SELECT max(seq) FROM record_entry), 0)::text AS entry,
      (SELECT count(*) FROM sheet WHERE state = 'counted')::int AS sheets`
  return rows[0]!
}

/** What would have been said of tests the day before each, as far as it is stored: by test. */
export async function readPastForecasts(
  tx: Transaction,
  testIds: readonly string[],
): Promise<Map<string, Pick<PastForecast, 'kind' | 'forecast' | 'byKind'>>> {
  const rows = await tx.$queryRaw<(Pick<PastForecast, 'kind' | 'forecast' | 'byKind'> & { id: string })[]>`
    SELECT sheet_id::text AS id, kind, forecast, by_kind AS "byKind" FROM past_forecast
    WHERE sheet_id = ANY(${[...testIds]}::uuid[])`
  return new Map(rows.map(({ id, ...forecast }) => [id, forecast]))
}

/** All counted tests of a standard up to a day, and how many were passed. */
export async function countTests(
  tx: Transaction,
  standardId: string,
  day: string,
): Promise<{ tests: number; passes: number }> {
  const rows = await tx.$queryRaw<{ tests: number; passes: number }[]>`
    SELECT count(*)::int AS tests, (count(*) FILTER (WHERE outcome = 'GO'))::int AS passes FROM sheet
    WHERE standard_id = ${standardId}::uuid AND state = 'counted' AND purpose = 'test' AND second_of IS NULL
      AND ending <> 'void' AND day <= ${day}::date`
  return rows[0]!
}
