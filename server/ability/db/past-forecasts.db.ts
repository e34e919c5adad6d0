import type { Transaction } from '../../db/client.ts'
import type { PastForecast } from '../../domain/ability/past-forecasts.ts'

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

/** What the stored forecasts of a standard's tests were made of, by test. */
export async function listForecastPrints(tx: Transaction, standardId: string): Promise<Map<string, string>> {
  const rows = await tx.$queryRaw<{ id: string; fingerprint: string }[]>`
    SELECT f.sheet_id::text AS id, f.fingerprint FROM past_forecast f JOIN sheet s ON s.id = f.sheet_id
    WHERE s.standard_id = ${standardId}::uuid`
  return new Map(rows.map(({ id, fingerprint }) => [id, fingerprint]))
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
